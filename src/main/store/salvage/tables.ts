import type Sqlite from 'better-sqlite3';
import { codeOf } from '../databaseProblem.ts';
import { type RawRow, readAround, readFromBothEnds, unlessDamaged } from './ranges.ts';

/** A table as it is carried over. */
interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  readonly key: readonly string[];
  readonly hasRowNumbers: boolean;
  /** Index of the column that must hold JSON, or -1. */
  readonly json: number;
}

/** What was read of a table, and what may be missing. */
export interface Carried {
  saved: number;
  lost: number;
  /** Entries are lost of which nothing tells any more what build they belonged to. */
  unplaced?: boolean;
}

/** Where a table's last row number cannot be read either, numbers are tried up to this one. */
const triedAtLeast = 10_000;

/**
 * Carries every row that can be read from a damaged database into a new one of the same shape.
 * @param before the last row numbers that are known from elsewhere, by table.
 * @returns what became of each table.
 */
export function carryTables(
  from: Sqlite.Database,
  into: Sqlite.Database,
  before: Readonly<Record<string, number>>,
): ReadonlyMap<string, Carried> {
  const carried = new Map<string, Carried>();
  for (const table of tablesOf(into)) carried.set(table.name, carryTable(from, into, table, before[table.name] ?? 0));
  markLostEntries(from, into, before['notebook_entry'] ?? 0, carried.get('notebook_entry'));
  return carried;
}

interface TableRow {
  readonly name: string;
  readonly wr: 0 | 1;
}

/** What is read out of the notebooks is made anew from those that were saved. */
const isMadeAnew = (table: string): boolean => /^build_(?:summary|sheet|words)/u.test(table);

interface ColumnRow {
  readonly name: string;
  readonly type: string;
  readonly pk: number;
}

function tablesOf(sql: Sqlite.Database): readonly Table[] {
  const rows = sql
    .prepare<[], TableRow>("SELECT name, wr FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%'")
    .all()
    .filter(({ name }) => !isMadeAnew(name));
  return rows.map(({ name, wr }) => {
    const found = sql.prepare<[string], ColumnRow>('SELECT name, type, pk FROM pragma_table_info(?)').all(name);
    const key = found.filter(({ pk }) => pk > 0).toSorted((a, b) => a.pk - b.pk);
    const own = found.map((column) => column.name);
    const hasRowNumbers = wr === 0;
    const isNumbered = key.length === 1 && key[0]?.type === 'INTEGER';
    const columns = hasRowNumbers
      ? ['rowid', ...own.filter((column) => !(isNumbered && column === key[0]?.name))]
      : own;
    const json = columns.findIndex((column) => column === 'record' || column === 'deed');
    return { name, columns, key: key.map((column) => column.name), hasRowNumbers, json };
  });
}

function carryTable(from: Sqlite.Database, into: Sqlite.Database, table: Table, known: number): Carried {
  const { name, columns, key, hasRowNumbers } = table;
  const insert = into.prepare(
    `INSERT ${hasRowNumbers ? '' : 'OR IGNORE'} INTO ${name} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
  );
  const carried: Carried = { saved: 0, lost: 0 };
  const lose = (rows: number): void => void (carried.lost += rows);
  const take = (row: RawRow): void => {
    if (fits(insert, row) || fits(insert, asDamaged(row, table.json))) carried.saved += 1;
    else lose(1);
  };
  const names = columns.join(', ');
  if (!hasRowNumbers) readFromBothEnds(from, `SELECT ${names} FROM ${name}`, key, { take, lose });
  else readAround(from, name, names, { from: 1, to: lastNumber(from, name, known) }, { take, lose });
  return carried;
}

function lastNumber(sql: Sqlite.Database, table: string, known: number): number {
  const last = unlessDamaged(() => Number(sql.prepare(`SELECT coalesce(max(rowid), 0) FROM ${table}`).pluck().get()));
  return last ?? Math.max(known, triedAtLeast);
}

/** Whether the new table takes the row. What it refuses was bent: a text where a number stood, JSON that is none. */
function fits(insert: Sqlite.Statement, row: RawRow): boolean {
  try {
    insert.run(...row);
    return true;
  } catch (error) {
    if (/^SQLITE_(?:CONSTRAINT|MISMATCH)/u.test(codeOf(error))) return false;
    throw error;
  }
}

/** The row with its bent record put into a JSON that no schema takes: so its place is kept and it is shown as unreadable. */
const asDamaged = (row: RawRow, json: number): RawRow =>
  row.map((value, index) => (index === json ? JSON.stringify({ damaged: String(value) }) : value));

/**
 * An entry that is lost would leave a notebook that tells another story. The index still knows which build a lost line
 * belonged to: a line that nobody can read is put there, so that the build is shown as damaged and not as whole.
 */
function markLostEntries(from: Sqlite.Database, into: Sqlite.Database, known: number, entries?: Carried): void {
  if (entries === undefined) return;
  const last = Math.max(known, Number(into.prepare('SELECT coalesce(max(line), 0) FROM notebook_entry').pluck().get()));
  const there = into.prepare<[number]>('SELECT 1 FROM notebook_entry WHERE line = ?');
  const put = into.prepare(
    `INSERT INTO notebook_entry (line, id, build, version, at, by, deed) VALUES (?, ?, ?, 1, '', '', '{"kind":"damaged"}')`,
  );
  const builds = buildsByLine(from);
  // Lines are numbered without a gap, because no entry is ever taken away.
  const lost = Array.from({ length: last }, (_, index) => index + 1).filter((line) => there.get(line) === undefined);
  for (const line of lost) {
    const build = builds.get(line);
    if (build === undefined) entries.unplaced = true;
    else put.run(line, `lost-${line}`, build);
  }
  entries.lost = lost.length;
}

/** The build of each line, as far as the index can be read. */
function buildsByLine(sql: Sqlite.Database): ReadonlyMap<number, string> {
  const builds = new Map<number, string>();
  const statement = 'SELECT build, line FROM notebook_entry INDEXED BY notebook_entry_build';
  const take = ([build, line]: RawRow): void => void builds.set(Number(line), String(build));
  readFromBothEnds(sql, statement, ['build', 'line'], { take, lose: () => undefined });
  return builds;
}
