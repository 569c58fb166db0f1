import type { Database as Sql } from 'better-sqlite3';
import type { EventKind, JournalRow } from './entry.ts';

/** Rows are read a page at a time: a day of readings never has to fit in memory, and writing goes on between pages. */
const pageRows = 4096;

type StoredRow = readonly [
  seq: number,
  gauge: number | null,
  kind: string,
  t: number,
  at: number,
  value: number | null,
  unit: string | null,
  raw: Uint8Array | null,
  note: string | null,
];

/** Making a buffer for each of a million short lines takes as long as everything else together. */
const bytesOfUnreadable = "CASE kind WHEN 'unreadable' THEN raw END";

/** Rows on disk from `fromSeq` to `toSeq`, of `gauge` and of the whole bench, or of every gauge. */
export function* readPages(
  sql: Sql,
  gauge: string | undefined,
  fromSeq: number,
  toSeq: number,
  bytes: boolean,
): Generator<JournalRow, void> {
  const names = gaugeNames(sql);
  const number = gauge === undefined ? null : numberOf(names, gauge);
  const page = sql
    .prepare<[number, number, number | null, number | null, number]>(`
      SELECT seq, gauge, kind, t, at, value, unit, ${bytes ? 'raw' : bytesOfUnreadable}, note FROM journal
      WHERE seq >= ? AND seq <= ? AND (? IS NULL OR gauge IS NULL OR gauge = ?)
      ORDER BY seq LIMIT ?`)
    .raw();
  let next = fromSeq;
  while (next <= toSeq) {
    const rows = page.all(next, toSeq, number, number, pageRows) as StoredRow[];
    for (const row of rows) yield rowFrom(row, names);
    const last = rows.at(-1);
    if (last === undefined || rows.length < pageRows) return;
    next = last[0] + 1;
  }
}

function gaugeNames(sql: Sql): ReadonlyMap<number, string> {
  const rows = sql.prepare('SELECT number, gauge FROM journal_gauge').raw().all() as [number, string][];
  return new Map(rows);
}

/** A gauge that never sent anything has no number, and 0 is nobody's. */
const numberOf = (names: ReadonlyMap<number, string>, gauge: string): number =>
  [...names].find(([, name]) => name === gauge)?.[0] ?? 0;

const empty = new Uint8Array(0);

function rowFrom(stored: StoredRow, names: ReadonlyMap<number, string>): JournalRow {
  const [seq, number, kind, t, at, value, unit, raw, note] = stored;
  const gauge = number === null ? undefined : names.get(number);
  if (kind === 'reading' && gauge !== undefined && value !== null && unit !== null) {
    const row = { seq, kind, gauge, t, at, value, unit, raw: raw ?? empty } as const;
    return note === null ? row : { ...row, note };
  }
  if (kind === 'unreadable' && gauge !== undefined) {
    return { seq, kind, gauge, t, at, raw: raw ?? empty, note: note ?? '' };
  }
  const event = { seq, kind: kind as EventKind, t, at };
  return { ...event, ...(gauge !== undefined && { gauge }), ...(note !== null && { note }) };
}
