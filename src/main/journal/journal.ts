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

/** The one place where row numbers are given out and rows wait for the disk. */
function createGroup(writer: RowWriter, database: Database, onProblem: (problem?: Problem) => void): Group {
  let waiting: JournalRow[] = [];
  let lost = 0;
  /** Stands among those that wait, where rows began to be lost. */
  let notice: (JournalRow & { readonly kind: 'lost' }) | undefined;
  let durable = writer.lastSeq();
  // Rows that were lost had numbers, and measurements may rest on them: they are not given out again.
  let last = durable < database.witness.journal ? database.witness.journal + mostUnnoted : durable;
  let timer: NodeJS.Timeout | undefined;
  let problem: Problem | undefined;

  const later = (wait_ms: number): void => {
    timer ??= setTimeout(() => {
      timer = undefined;
      flush();
    }, wait_ms);
  };

  const append = (entry: Entry): number => {
    if (waiting.length >= mostHeld) return lose();
    last += 1;
    waiting.push({ ...entry, seq: last });
    later(problem === undefined ? groupFor_ms : retryAfter_ms);
    return last;
  };

  /** The disk has refused for minutes. Says in a row how much is missing rather than end the bench for want of memory. */
  const lose = (): number => {
    lost += 1;
    if (notice !== undefined) return last;
    const { clock } = database;
    last += 1;
    notice = { kind: 'lost', t: clock.monotonic_s(), at: clock.wall_ms(), seq: last };
    waiting.push(notice);
    return last;
  };

  const flush = (): Result<void> => {
    if (waiting.length === 0) return ok(undefined);
    const refused = writeRows();
    if (refused !== undefined) {
      if (problem?.kind !== refused.kind) onProblem(refused);
      problem = refused;
      later(retryAfter_ms);
      return fail(refused);
    }
    waiting = [];
    lost = 0;
    notice = undefined;
    durable = last;
    if (problem !== undefined) onProblem();
    problem = undefined;
    return ok(undefined);
  };

  const writeRows = (): Problem | undefined => {
    try {
      const gone = database.place.problem();
      if (gone !== undefined) return gone;
      const rows = waiting.map((row) =>
        row === notice ? { ...row, note: `${lost} rows: ${problem?.sentence ?? ''}` } : row,
      );
      // A disk may say no after it has taken rows. That they can be read does not say that they are safe: they are written
      // once more, each in its own place.
      if (problem === undefined) writer.write(rows);
      else writer.writeAgain(rows);
      database.witness.noteSoon();
      return undefined;
    } catch (error) {
      return databaseProblem(error, database.path);
    }
  };

  const close = (): Result<void> => {
    const flushed = flush();
    clearTimeout(timer);
    timer = undefined;
    return flushed.ok ? flushed : fail(putElsewhere(waiting, lost, flushed.problem));
  };

  return { append, flush, last: () => last, durable: () => durable, close };
}
