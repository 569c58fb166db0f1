import { readFileSync } from 'node:fs';
import { pagesAsDrawn, verifyCertificate } from '../../certificate/verify.ts';
import { codeOf } from '../../store/databaseProblem.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { noAnswer, type Verb, wrongUse } from '../verb.ts';

/** Whether a certificate holds together. */
export const verify: Verb = {
  name: 'verify',
  usage: 'verify FILE',
  summary: 'whether a certificate (PDF or its data) says what its own notebook gives',
  words: 1,
  options: {},
  async run(given, output) {
    const file = readBytes(given.words[0] ?? '');
    if (!file.ok) return wrongUse(output, file.problem);
    const verified = verifyCertificate(file.value);
    if (!verified.ok) return noAnswer(output, verified.problem);
    if (verified.value.from === 'json') {
      output.answer(verified.value);
      return 0;
    }
    const pages = await pagesAsDrawn(file.value);
    if (!pages.ok) return noAnswer(output, pages.problem);
    output.answer({ ...verified.value, pagesAsDrawn: pages.value });
    return pages.value ? 0 : noAnswer(output, otherPages);
  },
};

function readBytes(path: string): Result<Buffer> {
  try {
    return ok(readFileSync(path));
  } catch (error) {
    return fail({
      kind: 'file-unreadable',
      field: 'FILE',
      sentence: `FILE: ${path} cannot be read (${codeOf(error)}).`,
      remedy: 'Check the path.',
    });
  }
}

/** The data are whole, yet what a person sees on the pages may be something else. */
const otherPages: Problem = {
  kind: 'other-pages',
  sentence: 'The data inside hold together, but the pages are not those that this bench draws from them.',
  remedy: 'Either a page was altered or another version of the bench drew it. Rely on the data only.',
};
