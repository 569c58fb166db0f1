import { rmSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ending, madeAt } from './form.ts';

/** So many of the newest stay, and the newest of each of so many weeks, this one counted: a mistake is often seen days later. Own choice. */
const newest = 3;
const weeks = 4;
const week_ms = 7 * 24 * 3600 * 1000;

/** Which of a bench's backups are not needed any more, given the one just made: that one stays whatever the clock says. */
export function superseded(names: readonly string[], bench: string, just: string): readonly string[] {
  const dated = names
    .flatMap((name) => {
      const at = madeAt(name, bench)?.getTime();
      return at === undefined ? [] : [{ name, at }];
    })
    .toSorted((one, other) => other.at - one.at);
  // Weeks begin on the same days for every backup: counted back from each one anew, none would grow a week old.
  const weekOf = (at: number): number => Math.floor(at / week_ms);
  const now = weekOf(madeAt(just, bench)?.getTime() ?? 0);
  const keep = new Set([just, ...dated.slice(0, newest).map(({ name }) => name)]);
  for (let week = now; week > now - weeks; week -= 1) {
    const last = dated.find(({ at }) => weekOf(at) === week);
    if (last !== undefined) keep.add(last.name);
  }
  return dated.flatMap(({ name }) => (keep.has(name) ? [] : [name]));
}

/** Removes what a verified backup has made superfluous. What cannot be removed stays, and is tried the next time. */
export function rotate(folder: string, bench: string, just: string): readonly string[] {
  return superseded(readdirSync(folder), bench, just).filter((name) => removed(join(folder, name)));
}

/** A half-written backup whose program was ended; one that is being written now has changed within this time. */
const abandoned_ms = 10 * 60_000;

/** Removes what programs that were ended in the middle of a backup have left. */
export function clearAbandoned(folder: string, now_ms: number): void {
  for (const name of readdirSync(folder)) {
    if (!name.startsWith('axlewright-') || !/\.backup\.[0-9a-f]{8}\.part(?:-journal|-wal|-shm)?$/u.test(name)) continue;
    if (now_ms - statSync(join(folder, name)).mtimeMs > abandoned_ms) removed(join(folder, name));
  }
}

function removed(file: string): boolean {
  try {
    rmSync(file);
    return true;
  } catch {
    return false;
  }
}

/** Whether a name is that of any bench's backup. */
export const isBackupName = (name: string): boolean => name.startsWith('axlewright-') && name.endsWith(ending);
