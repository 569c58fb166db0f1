/** A process that journals readings by the timer, and so in its thread, and says what is safe; the test ends it without warning. */
import fs from 'node:fs';
import { systemClock } from '../../../src/main/clock.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { openDatabase } from '../../../src/main/store/database.ts';

const opened = openDatabase(process.argv[2] ?? '', systemClock);
if (!opened.ok) throw new Error(opened.problem.sentence);
const journal = openJournal(opened.value);
let safe = 0;
setInterval(() => {
  for (let i = 0; i < 5; i += 1) {
    const times = { t: systemClock.monotonic_s(), at: systemClock.wall_ms() };
    journal.append({ kind: 'reading', gauge: 'a', ...times, value: i, unit: 'mm', raw: Buffer.from(`${i}`) });
  }
  if (journal.durable() === safe) return;
  safe = journal.durable();
  fs.writeSync(1, `${safe}\n`);
}, 1);
