import type { Clock } from '../clock.ts';
import type { Entry, JournalRow } from './entry.ts';

/** What the bench holds in memory while the disk refuses: about ten minutes of four gauges at 100/s. */
const mostHeld = 250_000;

/** Rows that wait for the disk, in order. */
interface HeldRows {
  /** Gives the entry its number. @returns false where there was no room for it */
  readonly add: (entry: Entry) => boolean;
  /** The last number given out. */
  readonly last: () => number;
  /** How many were not held, because there were too many. */
  readonly lost: () => number;
  /** All that are held, in order. */
  readonly rows: () => readonly JournalRow[];
  /** The rows that wait, as they go to the disk: a notice says how many are missing, and why. */
  readonly told: (why: string) => readonly JournalRow[];
  /** The rows that waited are on disk. */
  readonly taken: () => void;
  /** Those that wait set out; what is added from now on waits for the next time. */
  readonly setOut: (why: string) => readonly JournalRow[];
  /** Those that set out are on disk. @returns the number of the last of them */
  readonly arrived: () => number;
  /** Those that set out were refused, and wait again before all others. */
  readonly cameBack: () => void;
}

/** @param lastSeq the last row number that was given out before */
export function heldRows(clock: Clock, lastSeq: number): HeldRows {
  let underWay: readonly JournalRow[] = [];
  let rows: JournalRow[] = [];
  let lost = 0;
  /** Stands among those that wait, where rows began to be lost. */
  let notice: (JournalRow & { readonly kind: 'lost' }) | undefined;
  let last = lastSeq;

  /** The disk has refused for minutes. Says in a row how much is missing rather than end the bench for want of memory. */
  const lose = (): void => {
    lost += 1;
    if (notice !== undefined) return;
    last += 1;
    notice = { kind: 'lost', t: clock.monotonic_s(), at: clock.wall_ms(), seq: last };
    rows.push(notice);
  };

  const told = (why: string): readonly JournalRow[] =>
    notice === undefined ? rows : rows.map((row) => (row === notice ? { ...row, note: `${lost} rows: ${why}` } : row));

  const taken = (): void => {
    rows = [];
    lost = 0;
    notice = undefined;
  };

  return {
    add(entry) {
      if (underWay.length + rows.length >= mostHeld) {
        lose();
        return false;
      }
      last += 1;
      rows.push({ ...entry, seq: last });
      return true;
    },
    last: () => last,
    lost: () => lost,
    rows: () => [...underWay, ...rows],
    told,
    taken,
    setOut(why) {
      underWay = told(why);
      taken();
      return underWay;
    },
    arrived() {
      const seq = underWay.at(-1)?.seq ?? 0;
      underWay = [];
      return seq;
    },
    cameBack() {
      rows = [...underWay, ...rows];
      underWay = [];
    },
  };
}
