import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { verifyCertificate } from '../../certificate/verify.ts';
import { systemClock } from '../../clock.ts';
import { databaseName, openDatabase } from '../../store/database.ts';
import { type KnownBench, knownBenches } from '../../store/identity.ts';
import { folderOf } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Verb, wrongUse } from '../verb.ts';
import { readBytes } from '../wholeFile.ts';

/** Whether a certificate holds together. */
export const verify: Verb = {
  name: 'verify',
  ...told.verify,
  words: 1,
  options: {},
  async run(given, output) {
    const file = readBytes({ path: given.words[0] ?? '', option: 'FILE' });
    if (!file.ok) return wrongUse(output, file.problem);
    const verified = await verifyCertificate(file.value, benchesKnownIn(folderOf(given)));
    if (verified.ok) {
      output.answer(verified.value);
      return 0;
    }
    const { kind, sentence } = verified.problem;
    output.answer({ holds: false, kind, firstDifference: sentence });
    return noAnswer(output, verified.problem);
  },
};

/** The benches that the records know; none where there are no records. */
function benchesKnownIn(folder: string): readonly KnownBench[] {
  if (!existsSync(join(folder, databaseName))) return [];
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return [];
  const known = knownBenches(database.value);
  database.value.close();
  return known;
}
