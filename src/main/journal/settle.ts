import type { Problem } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { type Block, packBlock, unpackBlock } from './blocks/block.ts';
import type { StoredRow } from './storedRow.ts';
import { thinPiece } from './thin.ts';

/** Rows packed in one step: the gauges wait that long. */
const rowsAtOnce = 1024;

/** One step of settling the journal. */
interface Step {
  /** Idle readings that were thinned away. */
  readonly removed: number;
  /** Rows that went into a block. */
  readonly packed: number;
  /** Whether there may be more to do. */
  readonly more: boolean;
}

/** What is settled: rows up to `safe` that are kept for a measurement, and rows that came before `beforeAt_ms`. */
interface Settled {
  /** Last row number that is known to be on disk. */
  readonly safe: number;
  /** Wall-clock milliseconds. */
  readonly beforeAt_ms: number;
}

/**
 * Settles a piece of the journal: rows that a measurement rests on are packed as they are, old ones are thinned first. In one
 * transaction, and only after the block has given back every byte; wherever it is cut off, a row stands in the journal or in a
 * block, never in both and never in neither.
 */
export function settleStep(database: Database, { safe, beforeAt_ms }: Settled): Step {
  const { sql } = database;
  const step = sql.transaction((): Step => {
    const kept = sql
      .prepare<[number], Range>(
        'SELECT from_seq AS first, to_seq AS last FROM kept WHERE packed = 0 AND to_seq <= ? ORDER BY from_seq LIMIT 1',
      )
      .get(safe);
    if (kept !== undefined) {
      const packed = packRows(database, kept);
      if (packed === 0)
        sql.prepare('UPDATE kept SET packed = 1 WHERE from_seq = ? AND to_seq = ?').run(kept.first, kept.last);
      return { removed: 0, packed, more: true };
    }
    const old = oldPiece(database, beforeAt_ms);
    if (old === undefined) return { removed: 0, packed: 0, more: false };
    const removed = thinPiece(database, old.first, old.last, beforeAt_ms);
    return { removed, packed: packRows(database, old), more: true };
  });
  // It looks before it writes, and rows are written beside it: it has the right to write from the first look on.
  return step.immediate();
}

/** Row numbers, both ends included. */
interface Range {
  readonly first: number;
  readonly last: number;
}

/** The oldest rows that are not packed, as many as go in a block, where the last of them is old enough; blocks already there part them. */
function oldPiece({ sql }: Database, beforeAt_ms: number): Range | undefined {
  const rows = sql
    .prepare<[number], { seq: number; at: number }>('SELECT seq, at FROM journal ORDER BY seq LIMIT ?')
    .all(rowsAtOnce);
  const [first, last] = [rows[0], rows.at(-1)];
  // By the last of them: what came before it is older, whatever the clock said then.
  if (first === undefined || last === undefined || last.at >= beforeAt_ms) return undefined;
  return { first: first.seq, last: endBefore(sql, { first: first.seq, last: last.seq }) };
}

/** The last number of the range that does not lie beyond a block inside it. */
function endBefore(sql: Database['sql'], { first, last }: Range): number {
  const block = sql
    .prepare<[number], number>('SELECT from_seq FROM journal_block WHERE to_seq >= ? ORDER BY to_seq LIMIT 1')
    .pluck()
    .get(first);
  return block === undefined ? last : Math.min(last, block - 1);
}

/** Moves rows of the range into a block, as many as go in one. @returns how many */
function packRows({ sql }: Database, range: Range): number {
  const columns = 'seq, gauge, kind, t, at, value, unit, raw, note';
  const select = sql
    .prepare<[number, number, number]>(`SELECT ${columns} FROM journal WHERE seq BETWEEN ? AND ? ORDER BY seq LIMIT ?`)
    .raw();
  const found = select.all(range.first, range.last, rowsAtOnce) as StoredRow[];
  const [first, last] = [found[0], found.at(-1)];
  if (first === undefined || last === undefined) return 0;
  const end = endBefore(sql, { first: first[0], last: last[0] });
  const rows = found.filter(([seq]) => seq <= end);
  const block = packBlock(rows);
  if (!givesBack(block, rows)) throw new NotPacked(first[0], end);
  put(sql, block);
  sql.prepare('DELETE FROM journal WHERE seq BETWEEN ? AND ?').run(block.from_seq, block.to_seq);
  return rows.length;
}

function put(sql: Database['sql'], { from_seq, to_seq, rows, format, crc, bytes }: Block): void {
  sql
    .prepare('INSERT INTO journal_block (from_seq, to_seq, rows, format, crc, bytes) VALUES (?, ?, ?, ?, ?, ?)')
    .run(from_seq, to_seq, rows, format, crc, bytes);
}

/** Undoes the step: the rows stay where they are. */
class NotPacked extends Error {
  readonly problem: Problem;
  constructor(first: number, last: number) {
    super(`rows ${first} to ${last} could not be packed`);
    this.problem = {
      kind: 'not-packed',
      sentence: `Readings ${first} to ${last} could not be packed, and take more room than they need.`,
      remedy: 'Nothing is lost. Save a report in Settings.',
    };
  }
}

/** Rows are taken out of the journal only where their block gives every one of them back as it was. */
function givesBack(block: Block, rows: readonly StoredRow[]): boolean {
  const back = unpackBlock(block, { bytes: true });
  return back?.length === rows.length && rows.every((row, index) => isSame(row, back[index]));
}

const isSame = (row: StoredRow, other: StoredRow | undefined): boolean =>
  row.every((value, index) => {
    const back = other?.[index];
    return value instanceof Uint8Array && back instanceof Uint8Array
      ? Buffer.compare(value, back) === 0
      : Object.is(value, back);
  });

/** For a week everything stays as it came; after that, what idle gauges repeated between measurements is thinned. */
const keepWhole_ms = 7 * 24 * 3600 * 1000;
/** Nothing is settled in the first minute: the person at the stand waits for other things then. */
const first_ms = 60_000;
const idle_ms = 20_000;
/** The gauges have the machine for so many times what a step took, and for so long at least. */
const restTimes = 15;
const leastRest_ms = 60;

interface Settling {
  readonly database: Database;
  readonly journal: { readonly durable: () => number };
  readonly onProblem: (problem: Problem) => void;
}

/** Settles the journal of a bench at work, step by step with rests between. @returns ends it */
export function settleJournal({ database, journal, onProblem }: Settling): () => void {
  let timer: NodeJS.Timeout | undefined;
  const later = (wait_ms: number): void => {
    timer = setTimeout(step, wait_ms).unref();
  };
  const step = (): void => {
    const began = performance.now();
    try {
      const beforeAt_ms = database.clock.wall_ms() - keepWhole_ms;
      const gone = database.place.problem();
      const { more } =
        gone === undefined ? settleStep(database, { safe: journal.durable(), beforeAt_ms }) : { more: false };
      later(more ? Math.max(leastRest_ms, restTimes * (performance.now() - began)) : idle_ms);
    } catch (error) {
      // Nothing is lost: the rows stay where they are. The next start tries again.
      onProblem(error instanceof NotPacked ? error.problem : databaseProblem(error, database.path));
    }
  };
  later(first_ms);
  return () => clearTimeout(timer);
}
