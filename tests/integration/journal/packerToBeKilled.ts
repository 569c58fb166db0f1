/** A process that journals and packs what it journaled, as fast as it can, and says what is safe; the test ends it without warning. */
import fs from 'node:fs';
import { systemClock } from '../../../src/main/clock.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { settleStep } from '../../../src/main/journal/settle.ts';
import { openDatabase } from '../../../src/main/store/database.ts';

const opened = openDatabase(process.argv[2] ?? '', systemClock);
if (!opened.ok) throw new Error(opened.problem.sentence);
const database = opened.value;
const journal = openJournal(database);
for (;;) {
  const from = journal.last() + 1;
  for (let n = 0; n < 700; n += 1) {
    const seq = journal.last() + 1;
    const raw = Buffer.from(`${seq} mm\r\n`);
    journal.append({ kind: 'reading', gauge: 'a', t: seq / 100, at: seq * 10, value: seq, unit: 'mm', raw });
  }
  if (!journal.flush().ok || !journal.keep(from, journal.last(), 'measurement').ok) break;
  const { packed } = settleStep(database, { safe: journal.durable(), beforeAt_ms: 0 });
  fs.writeSync(1, `${journal.durable()} ${packed}\n`);
}
