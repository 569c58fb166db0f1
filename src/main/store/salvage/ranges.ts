import type Sqlite from 'better-sqlite3';
import { codeOf } from '../databaseProblem.ts';

/** One row as SQLite gives it: its values in the order of the columns asked for. */
export type RawRow = readonly unknown[];

/** Row numbers, both ends included. */
interface Range {
  readonly from: number;
  readonly to: number;
}

/** What becomes of the rows. */
interface Taker {
  readonly take: (row: RawRow) => void;
  /** So many row numbers could not be read; whether each of them was ever given out is not known. */
  readonly lose: (rows: number) => void;
}

const pageRows = 2048;

/**
 * How small a stretch is halved to. A damaged upper page fails at every number below it, tens of thousands of them; behind so
 * many failures coarser stretches are given up whole, so that the rest of the table is reached within seconds.
 */
const grainAfter = (failures: number): number => (failures < 4000 ? 1 : failures < 8000 ? 64 : 4096);

/**
 * Reads a table with row numbers around its damaged pages: a stretch that cannot be read is halved until what is damaged
 * stands alone. A row is found by its number through the tree, so a damaged leaf costs its own rows and no others.
 * @param columns the first is the row number.
 */
export function readAround(sql: Sqlite.Database, table: string, columns: string, range: Range, taker: Taker): void {
  const page = sql
    .prepare<[number, number]>(
      `SELECT ${columns} FROM ${table} WHERE rowid >= ? AND rowid <= ? ORDER BY rowid LIMIT ${pageRows}`,
    )
    .raw();
  let failures = 0;
  const waiting: Range[] = [range];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { from, to } = next;
    const rows = unlessDamaged(() => page.all(from, to) as RawRow[]);
    if (rows !== undefined && isInOrder(rows, next)) {
      for (const row of rows) taker.take(row);
      const last = Number(rows.at(-1)?.[0]);
      if (rows.length === pageRows && last < to) waiting.push({ from: last + 1, to });
      continue;
    }
    failures += 1;
    if (to - from < grainAfter(failures)) {
      taker.lose(to - from + 1);
      continue;
    }
    const middle = from + Math.floor((to - from) / 2);
    waiting.push({ from: middle + 1, to }, { from, to: middle });
  }
}

/** A page bent in a way SQLite does not notice gives the same row again and again, or rows of other numbers than were asked for. */
function isInOrder(rows: readonly RawRow[], { from, to }: Range): boolean {
  let before = from - 1;
  return rows.every(([first]) => {
    const number = Number(first);
    const isNext = number > before && number <= to;
    before = number;
    return isNext;
  });
}

/** Reads from both ends as far as it goes: for tables and indexes that have no row numbers. A row may come twice. */
export function readFromBothEnds(
  sql: Sqlite.Database,
  statement: string,
  order: readonly string[],
  taker: Taker,
): void {
  for (const direction of ['ASC', 'DESC']) {
    const by = order.map((column) => `${column} ${direction}`).join(', ');
    const whole = unlessDamaged(() => {
      for (const row of sql.prepare(`${statement} ORDER BY ${by}`).raw().iterate()) taker.take(row as RawRow);
      return true;
    });
    if (whole === true) return;
  }
  taker.lose(1);
}

/** What `read` gives; undefined where it meets damage. Any other failure is thrown on. */
export function unlessDamaged<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (/^SQLITE_(?:CORRUPT|IOERR|NOTADB|TOOBIG|NOMEM)/u.test(codeOf(error))) return undefined;
    throw error;
  }
}
