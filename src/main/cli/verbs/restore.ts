import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { restore as restoreInto } from '../../backup/restore.ts';
import { interruption } from '../../interruption.ts';
import { folderOf } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Verb, wrongUse } from '../verb.ts';

/** Records from a backup, into a folder where there are none. */
export const restore: Verb = {
  name: 'restore',
  ...told.restore,
  words: 1,
  options: {},
  async run(given, output) {
    const file = resolve(given.words[0] ?? '');
    if (!existsSync(file))
      return wrongUse(output, {
        kind: 'file-unreadable',
        field: 'FILE',
        sentence: `FILE: ${file} is not there.`,
        remedy: 'Check the path.',
      });
    // It takes moments; a Ctrl+C in the middle of it waits for its end.
    const { forget } = interruption();
    const restored = restoreInto(file, resolve(folderOf(given)));
    forget();
    if (!restored.ok) return noAnswer(output, restored.problem);
    if (restored.value.missing.length > 0)
      output.say(
        `${restored.value.missing.length} certificates do not lie beside the backup; the builds can issue them anew.`,
      );
    output.answer(restored.value);
    return 0;
  },
};
