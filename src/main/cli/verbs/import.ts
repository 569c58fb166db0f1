import { randomUUID } from 'node:crypto';
import { readBundle } from '../../exports/bundle.ts';
import { takeIn } from '../../exports/takeIn.ts';
import { systemClock } from '../../clock.ts';
import { endBetweenSteps } from '../../interruption.ts';
import { openDatabase } from '../../store/database.ts';
import { openIdentity } from '../../store/identity.ts';
import { folderOf } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Verb, wrongUse } from '../verb.ts';
import { readBytes } from '../wholeFile.ts';

/** Takes a build of another bench into the records. */
export const importBuild: Verb = {
  name: 'import',
  ...told.import,
  words: 1,
  options: {},
  async run(given, output) {
    const file = readBytes({ path: given.words[0] ?? '', option: 'FILE' });
    if (!file.ok) return wrongUse(output, file.problem);
    const bundle = readBundle(file.value);
    if (!bundle.ok) return noAnswer(output, bundle.problem);
    endBetweenSteps();
    const database = openDatabase(folderOf(given), systemClock);
    if (!database.ok) return noAnswer(output, database.problem);
    try {
      const identity = openIdentity(database.value, randomUUID);
      const taken = identity.ok ? takeIn(database.value, identity.value, bundle.value) : identity;
      if (!taken.ok) return noAnswer(output, taken.problem);
      output.answer(taken.value);
      return 0;
    } finally {
      database.value.close();
    }
  },
};
