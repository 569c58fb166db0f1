import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { makeBackup } from '../../backup/make.ts';
import { systemClock } from '../../clock.ts';
import { interruption } from '../../interruption.ts';
import { databaseName } from '../../store/database.ts';
import { folderOf, noRecords } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Verb } from '../verb.ts';

/** The records as one file for a stick or another disk. */
export const backup: Verb = {
  name: 'backup',
  ...told.backup,
  words: 1,
  options: {},
  async run(given, output) {
    const from = folderOf(given);
    if (!existsSync(join(from, databaseName))) return noAnswer(output, noRecords(from));
    const { signal, forget } = interruption();
    try {
      const into = resolve(given.words[0] ?? '');
      const made = await makeBackup({ from, into, now_ms: systemClock.wall_ms(), signal });
      if (!made.ok) return noAnswer(output, made.problem);
      output.answer(made.value);
      return 0;
    } finally {
      forget();
    }
  },
};
