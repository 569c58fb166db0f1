import type { Problem, Result } from '../../shared/basics/result.ts';
import { fail, ok } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import type { Entry, JournalRow } from './entry.ts';
import { putElsewhere } from './putElsewhere.ts';
import { readPages } from './readRows.ts';
import { type RowWriter, rowWriter } from './writeRows.ts';

/** Readings wait at most this long for company before they are written (the promise is 16 ms; a timer may be late). */
const groupFor_ms = 8;
const retryAfter_ms = 500;
/** What the bench holds in memory while the disk refuses: about ten minutes of four gauges at 100/s. */
const mostHeld = 250_000;
/** More rows than four fast gauges send between two notes of how far the journal goes. */
const mostUnnoted = 20_000;

/** The append-only record of everything the gauges sent. */
export interface Journal {
  /** Gives the entry its row number at once; it is on disk within 16 ms, or after `flush`. */
  readonly append: (entry: Entry) => number;
  /** Everything appended so far is on disk when this returns ok; otherwise why not (it is still held and tried again). */
  readonly flush: () => Result<void>;
  /**
   * The rows of one gauge, together with what concerns the whole bench (presses, clock), in order, both ends included.
   * Read from disk, never from memory. `undefined` for every gauge. With `bytes: false` the bytes of readings (not of
   * unreadable lines) stay on the disk and `raw` is empty: recomputing needs the values only, and is twice as fast.
   */
  readonly stretch: (
    gauge: string | undefined,
    fromSeq: number,
    toSeq: number,
    options?: { readonly bytes?: boolean },
  ) => Iterable<JournalRow>;
  /** Marks a stretch that belongs to a measurement: it is never thinned. */
  readonly keep: (fromSeq: number, toSeq: number, because?: string) => Result<void>;
  /** The last row number given out, 0 before the first. */
  readonly last: () => number;
  /** The last row number known to be on disk. */
  readonly durable: () => number;
  /** Writes what is held. Where the disk refuses to the last, fails with how many rows are lost, or where they were put. */
  readonly close: () => Result<void>;
}

export interface JournalOptions {
  /** Told when the disk refuses, and without a problem when it takes rows again. */
  readonly onProblem?: (problem?: Problem) => void;
}

/** Opens the journal of a database and notes that a new run begins: monotonic time starts anew here. */
export function openJournal(database: Database, options: JournalOptions = {}): Journal {
  const writer = rowWriter(database.sql);
  const group = createGroup(writer, database, options.onProblem ?? (() => undefined));
  group.append({ kind: 'opened', t: database.clock.monotonic_s(), at: database.clock.wall_ms() });
  return {
    append: group.append,
    flush: group.flush,
    *stretch(gauge, fromSeq, toSeq, { bytes = true } = {}) {
      group.flush();
      yield* readPages(database.sql, gauge, fromSeq, Math.min(toSeq, group.durable()), bytes);
    },
    keep: (fromSeq, toSeq, because = '') => database.write(() => writer.keep(fromSeq, toSeq, because)),
    last: group.last,
    durable: group.durable,
    close: group.close,
  };
}

type Group = Pick<Journal, 'append' | 'flush' | 'last' | 'durable' | 'close'>;

/** Rows that wait for the disk with their numbers, and how many were lost because it took none for minutes. */
function heldRows(database: Database, lastSeq: number) {
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
    notice = { kind: 'lost', t: database.clock.monotonic_s(), at: database.clock.wall_ms(), seq: last };
    rows.push(notice);
  };
  return {
    /** @returns false where there was no room for it */
    add(entry: Entry): boolean {
      if (rows.length >= mostHeld) {
        lose();
        return false;
      }
      last += 1;
      rows.push({ ...entry, seq: last });
      return true;
    },
    last: () => last,
    lost: () => lost,
    rows: (): readonly JournalRow[] => rows,
    /** The rows as they go to the disk: the notice says how many are missing, and why. */
    told: (why: string): readonly JournalRow[] =>
      rows.map((row) => (row === notice ? { ...row, note: `${lost} rows: ${why}` } : row)),
    taken(): void {
      rows = [];
      lost = 0;
      notice = undefined;
    },
  };
}

/** The one place where row numbers are given out and rows wait for the disk. */
function createGroup(writer: RowWriter, database: Database, onProblem: (problem?: Problem) => void): Group {
  let durable = writer.lastSeq();
  // Rows that were lost had numbers, and measurements may rest on them: they are not given out again.
  const noted = database.witness.journal;
  const held = heldRows(database, durable < noted ? noted + mostUnnoted : durable);
  let timer: NodeJS.Timeout | undefined;
  let problem: Problem | undefined;

  const later = (wait_ms: number): void => {
    timer ??= setTimeout(() => {
      timer = undefined;
      flush();
    }, wait_ms);
  };

  const append = (entry: Entry): number => {
    if (held.add(entry)) later(problem === undefined ? groupFor_ms : retryAfter_ms);
    return held.last();
  };

  const flush = (): Result<void> => {
    if (held.rows().length === 0) return ok(undefined);
    const refused = writeHeld(writer, database, held.told(problem?.sentence ?? ''), problem !== undefined);
    if (refused !== undefined) {
      if (problem?.kind !== refused.kind) onProblem(refused);
      problem = refused;
      later(retryAfter_ms);
      return fail(refused);
    }
    held.taken();
    durable = held.last();
    if (problem !== undefined) onProblem();
    problem = undefined;
    return ok(undefined);
  };

  const close = (): Result<void> => {
    const flushed = flush();
    clearTimeout(timer);
    timer = undefined;
    return flushed.ok ? flushed : fail(putElsewhere(held.rows(), held.lost(), flushed.problem));
  };

  return { append, flush, last: held.last, durable: () => durable, close };
}

/**
 * Writes rows, or says why not. A disk may say no after it has taken rows: that they can be read does not say that they are
 * safe, so that after a refusal they are written once more, each in its own place.
 */
function writeHeld(
  writer: RowWriter,
  database: Database,
  rows: readonly JournalRow[],
  again: boolean,
): Problem | undefined {
  try {
    const gone = database.place.problem();
    if (gone !== undefined) return gone;
    if (again) writer.writeAgain(rows);
    else writer.write(rows);
    database.witness.noteSoon();
    return undefined;
  } catch (error) {
    return databaseProblem(error, database.path);
  }
}
