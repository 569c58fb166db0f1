/** A process that journals as fast as it can and says what is safe; the test ends it without warning. */
import fs from 'node:fs';
import { systemClock } from '../../../src/main/clock.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { openDatabase } from '../../../src/main/store/database.ts';

const opened = openDatabase(process.argv[2] ?? '', systemClock);
if (!opened.ok) throw new Error(opened.problem.sentence);
const journal = openJournal(opened.value);
for (let i = 0; ; i += 1) {
  const t = systemClock.monotonic_s();
  const seq = journal.append({
    kind: 'reading',
    gauge: 'a',
    t,
    at: systemClock.wall_ms(),
    value: i,
    unit: 'mm',
    raw: Buffer.from(`${i}`),
  });
  if (i % 7 === 0 && journal.flush().ok) fs.writeSync(1, `${seq}\n`);
}
