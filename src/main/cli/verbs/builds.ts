import { summaryOf } from '../../bench/writing.ts';
import { folderOf, openRecords } from '../records.ts';
import { noAnswer, type Verb } from '../verb.ts';

/** Every build of a data folder, the one written in last first. */
export const builds: Verb = {
  name: 'builds',
  usage: 'builds [--data DIR]',
  summary: 'the builds in the records, the one written in last first',
  options: {},
  async run(given, output) {
    const records = openRecords(folderOf(given));
    if (!records.ok) return noAnswer(output, records.problem);
    output.answer(records.value.notebooks.map(summaryOf));
    for (const { id, problem } of records.value.unreadable) output.say(`Build ${id}: ${problem.sentence}`);
    records.value.close();
    return 0;
  },
};
