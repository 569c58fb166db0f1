import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { systemClock } from '../../src/main/clock.ts';
import { openJournal } from '../../src/main/journal/journal.ts';
import { openDatabase } from '../../src/main/store/database.ts';

/**
 * Power cuts, as near as one comes without pulling a plug: an ext4 file system in a file, shut down in mid-write by the
 * kernel (ioctl EXT4_IOC_SHUTDOWN without flushing its log, from memory), so that everything not synced is gone, and
 * mounted again. It does not show a disk that lies about its flush, nor torn sectors. The sync that is under way in the very
 * moment is at times called done and is not: a bare loop of write and fdatasync lost its last record in 4 of 40 such cuts.
 * So what was acknowledged last of all is not asked for.
 */
export interface Cuts {
  readonly cuts: number;
  /** Rows called safe before the cuts, over all of them. */
  readonly safe: number;
  readonly faults: readonly string[];
}

const writer = join(import.meta.dirname, '..', 'integration', 'journal', 'writerToBeKilled.ts');
const shutDown =
  'import fcntl,os,struct,sys;fcntl.ioctl(os.open(sys.argv[1],os.O_RDONLY),0x8004587D,struct.pack("I",2))';

const ran = (command: string, ...words: readonly string[]): boolean =>
  spawnSync(command, [...words], { stdio: 'ignore' }).status === 0;

/** Why there can be no cuts here; undefined where there can. */
export function whyNoCuts(): string | undefined {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return 'it needs root on Linux';
  const lacking = ['mkfs.ext4', 'mount', 'umount', 'python3'].filter((command) => !ran('which', command));
  return lacking.length === 0 ? undefined : `${lacking.join(', ')} cannot be found`;
}

export async function cutPower(cuts: number, say: (line: string) => void): Promise<Cuts | string> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-cuts-'));
  const [image, place] = [join(folder, 'disk.img'), join(folder, 'disk')];
  mkdirSync(place);
  const mount = (): boolean => ran('mount', '-o', 'loop,noatime', image, place);
  try {
    if (!ran('truncate', '-s', '256M', image) || !ran('mkfs.ext4', '-q', image) || !mount())
      return 'no disk in a file can be mounted';
    const faults: string[] = [];
    let safe = 0;
    for (let cut = 1; cut <= cuts; cut += 1) {
      const told = await writeUntilCut(join(place, 'data'), place, 300 + 37 * (cut % 20));
      ran('umount', '-l', place);
      if (!mount()) return 'the disk could not be mounted again';
      safe += told.rows;
      const found = lookAgain(join(place, 'data'));
      if (typeof found === 'string') faults.push(`cut ${cut}: ${found}`);
      else if (found < told.last)
        faults.push(`cut ${cut}: row ${told.last} was called safe, ${found} is the last there`);
      if (cut % 20 === 0) say(`  ${cut} cuts, ${faults.length} faults`);
    }
    return { cuts, safe, faults };
  } finally {
    ran('umount', '-l', place);
    rmSync(folder, { recursive: true, force: true });
  }
}

async function writeUntilCut(
  data: string,
  place: string,
  after_ms: number,
): Promise<{ readonly last: number; readonly rows: number }> {
  const child = spawn(process.execPath, [writer, data], { stdio: ['ignore', 'pipe', 'ignore'] });
  let said = '';
  child.stdout.on('data', (bytes: Buffer) => (said += bytes.toString()));
  const gone = once(child, 'close');
  await Promise.race([once(child.stdout, 'data'), gone]);
  await new Promise((resolve) => void setTimeout(resolve, after_ms));
  if (!ran('python3', '-c', shutDown, place)) throw new Error('the disk could not be shut down');
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
