import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { systemClock } from '../../src/main/clock.ts';
import { openJournal } from '../../src/main/journal/journal.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import { type FileDisk, fileDisk } from './fileDisk.ts';

/**
 * Power cuts, as near as one comes without pulling a plug: a disk in a file, shut down in mid-write, and mounted again. It does
 * not show a disk that lies about its flush, nor torn sectors. The sync that is under way in the very moment is at times
 * called done and is not: a bare loop of write and fdatasync lost its last record in 4 of 40 such cuts. So what was
 * acknowledged last of all is not asked for.
 */
export interface Cuts {
  readonly cuts: number;
  /** Rows, or rows and entries, called safe before the cuts, over all of them. */
  readonly safe: number;
  readonly faults: readonly string[];
}

const writer = join(import.meta.dirname, '..', 'integration', 'journal', 'writerToBeKilled.ts');

/** The journal alone, writing as fast as it can. */
export async function cutJournal(cuts: number, say: (line: string) => void): Promise<Cuts | string> {
  const disk = fileDisk();
  if (disk === undefined) return 'no disk in a file can be mounted';
  try {
    const faults: string[] = [];
    let safe = 0;
    for (let cut = 1; cut <= cuts; cut += 1) {
      const data = join(disk.place, 'data');
      const told = await writeUntilCut(data, disk, 300 + 37 * (cut % 20));
      if (!disk.again()) return 'the disk could not be mounted again';
      safe += told.rows;
      const found = lookAgain(data);
      if (typeof found === 'string') faults.push(`cut ${cut}: ${found}`);
      else if (found < told.last)
        faults.push(`cut ${cut}: row ${told.last} was called safe, ${found} is the last there`);
      if (cut % 20 === 0) say(`  ${cut} cuts of the journal, ${faults.length} faults`);
    }
    return { cuts, safe, faults };
  } finally {
    disk.remove();
  }
}

async function writeUntilCut(
  data: string,
  disk: FileDisk,
  after_ms: number,
): Promise<{ readonly last: number; readonly rows: number }> {
  const child = spawn(process.execPath, [writer, data], { stdio: ['ignore', 'pipe', 'ignore'] });
  let said = '';
  child.stdout.on('data', (bytes: Buffer) => (said += bytes.toString()));
  const gone = once(child, 'close');
  await Promise.race([once(child.stdout, 'data'), gone]);
  await new Promise((resolve) => void setTimeout(resolve, after_ms));
  disk.cut();
  child.kill('SIGKILL');
  await gone;
  const whole = said
    .slice(0, said.lastIndexOf('\n'))
    .split('\n')
    .filter((line) => line !== '');
  return { last: Number(whole.at(-2) ?? 0), rows: 7 * Math.max(0, whole.length - 1) };
}

/** The last row that is there after the cut, or what is wrong. */
function lookAgain(data: string): number | string {
  const opened = openDatabase(data, systemClock);
  if (!opened.ok) return opened.problem.sentence;
  const { sql, witness } = opened.value;
  const whole = String(sql.pragma('integrity_check', { simple: true }));
  const journal = openJournal(opened.value);
  const last = journal.durable();
  journal.close();
  opened.value.close();
  if (witness.lost !== undefined) return witness.lost.sentence;
  return whole === 'ok' ? last : `integrity_check: ${whole}`;
}
