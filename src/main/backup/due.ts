import type { Problem } from '../../shared/basics/result.ts';

/** Nobody has recorded anything for so long: the person is at the axle, at lunch or at home. */
const quiet_s = 600;
/** Not again before: a shop records all day long, and a stick that is not there is asked for once an hour. */
const apart_s = 3600;

interface Due {
  /** Something was recorded that is in no backup, and there is a folder for one. */
  readonly isNew: boolean;
  /** Seconds since something was recorded last. */
  readonly quiet_s: number;
  /** Seconds since one was tried last. */
  readonly tried_s: number;
}

export const backupDue = (due: Due): boolean => due.isNew && due.quiet_s >= quiet_s && due.tried_s >= apart_s;

const day_ms = 24 * 3600 * 1000;
/** Work that is older than this and lies on one disk alone is told: with a folder chosen, and without one. Own choice. */
const days = { chosen: 7, notChosen: 14 };

interface Age {
  readonly folder: string | undefined;
  /** When the last one was made. */
  readonly last: string | undefined;
  /** When the oldest entry was written that is in none. */
  readonly since: string | undefined;
  readonly now_ms: number;
}

/** What to tell where work has been in no backup for too long; undefined where it has not. */
export function tooOld({ folder, last, since, now_ms }: Age): Problem | undefined {
  if (since === undefined) return undefined;
  const old = Math.floor((now_ms - Date.parse(since)) / day_ms);
  if (old < (folder === undefined ? days.notChosen : days.chosen)) return undefined;
  const when = last === undefined ? 'There is no backup' : `The last backup is of ${last.slice(0, 10)}`;
  return {
    kind: 'backup-old',
    sentence: `${when}, and work of the last ${old} days is on this disk alone.`,
    remedy:
      folder === undefined
        ? 'Choose a folder on a stick or another disk in Settings; backups are then made by themselves.'
        : `Plug in what ${folder} lies on; the next backup is made by itself, or at once in Settings.`,
  };
}
