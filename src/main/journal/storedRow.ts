import type { EventKind, JournalRow } from './entry.ts';

/** A row of the journal as it lies in the database, the gauge by its number there. */
export type StoredRow = readonly [
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

const empty = new Uint8Array(0);

/** @param names of the gauges, by their number */
export function rowFrom(stored: StoredRow, names: ReadonlyMap<number, string>): JournalRow {
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

/** The same the other way: a row as it lies in the database, its gauge by this number there. */
export function storedFrom(row: JournalRow, number: number): StoredRow {
  const { seq, kind, t, at, note = null } = row;
  const gauge = row.gauge === undefined ? null : number;
  const [value, unit] = row.kind === 'reading' ? [row.value, row.unit] : [null, null];
  return [seq, gauge, kind, t, Math.round(at), value, unit, 'raw' in row ? row.raw : null, note];
}
