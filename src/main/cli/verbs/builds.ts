import { readNotebook } from '../../../shared/job/records/build.ts';
import { type BuildSummary, summaryOf } from '../../../shared/job/shop/summary.ts';
import type { Listed } from '../../store/buildList.ts';
import { numberOption } from '../options.ts';
import { folderOf, openRecords, type Records } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Output, type Verb, wrongUse } from '../verb.ts';

/** More than any shop builds. */
const all = 10_000_000;

/** The builds of a data folder, the one written in last first; on request those in which some words were typed. */
export const builds: Verb = {
  name: 'builds',
  ...told.builds,
  options: { find: { type: 'string' }, limit: { type: 'string' } },
  async run(given, output) {
    const limit = numberOption(given, 'limit', { least: 1, most: all, whole: true });
    if (!limit.ok) return wrongUse(output, limit.problem);
    const records = openRecords(folderOf(given));
    if (!records.ok) return noAnswer(output, records.problem);
    const { buildList, close } = records.value;
    const words = given.text('find') ?? '';
    const found = buildList.page({ words }, limit.value ?? all);
    output.answer(found.flatMap((listed) => summaryIn(records.value, listed, output)));
    if (found.length === 0 && words !== '') output.say(`None of ${buildList.counts().all} has "${words}".`);
    close();
    return 0;
  },
};

/** A build that the bench has not summed up yet is read for it: a reader writes nothing down. */
function summaryIn({ notebooks }: Records, { build, summary }: Listed, output: Output): readonly BuildSummary[] {
  if (summary !== undefined) return [summary];
  const notebook = notebooks.read(build);
  if (notebook?.ok === true) return [summaryOf(readNotebook(build, notebook.value.entries), notebook.value.entries)];
  if (notebook !== undefined) output.say(`Build ${build}: ${notebook.problem.sentence}`);
  return [];
}
