import type { Problem, Result } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import type { Entry, JournalRow } from './entry.ts';
import { createGroup } from './group.ts';
import { readPages } from './readRows.ts';
import { rowWriter } from './writeRows.ts';

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
  const group = createGroup({ writer, database, onProblem: options.onProblem ?? (() => undefined) });
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
