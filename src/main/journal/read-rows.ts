import type { Database as Sql } from 'better-sqlite3';
import type { EventKind, JournalRow } from './entry.ts';

/** Rows are read a page at a time: a day of readings never has to fit in memory, and writing goes on between pages. */
const pageRows = 4096;

interface StoredRow {
  readonly seq: number;
  readonly gauge: string | null;
  readonly kind: string;
  readonly t: number;
  readonly at: number;
  readonly value: number | null;
  readonly unit: string | null;
  readonly raw: Uint8Array | null;
  readonly note: string | null;
}

/** Rows on disk from `fromSeq` to `toSeq`, of `gauge` and of the whole bench, or of every gauge. */
export function* readPages(
  sql: Sql,
  gauge: string | undefined,
  fromSeq: number,
  toSeq: number,
): Generator<JournalRow, void> {
  const page = sql.prepare<[number, number, string | null, string | null, number], StoredRow>(`
    SELECT seq, journal_gauge.gauge AS gauge, kind, t, at, value, unit, raw, note
    FROM journal LEFT JOIN journal_gauge ON journal_gauge.number = journal.gauge
    WHERE seq >= ? AND seq <= ?
      AND (? IS NULL OR journal.gauge IS NULL OR journal.gauge = (SELECT number FROM journal_gauge WHERE gauge = ?))
    ORDER BY seq LIMIT ?`);
  let next = fromSeq;
  while (next <= toSeq) {
    const rows = page.all(next, toSeq, gauge ?? null, gauge ?? null, pageRows);
    for (const row of rows) yield rowFrom(row);
    const last = rows.at(-1);
    if (last === undefined || rows.length < pageRows) return;
    next = last.seq + 1;
  }
}

const empty = new Uint8Array(0);

function rowFrom(stored: StoredRow): JournalRow {
  const { seq, t, at, kind } = stored;
  const gauge = stored.gauge ?? undefined;
  const note = stored.note ?? undefined;
  const raw = stored.raw ?? empty;
  if (kind === 'reading' && gauge !== undefined && stored.value !== null && stored.unit !== null) {
    const { value, unit } = stored;
    return { seq, kind, gauge, t, at, value, unit, raw, ...(note !== undefined && { note }) };
  }
  if (kind === 'unreadable' && gauge !== undefined) return { seq, kind, gauge, t, at, raw, note: note ?? '' };
  return {
    seq,
    kind: kind as EventKind,
    t,
    at,
    ...(gauge !== undefined && { gauge }),
    ...(note !== undefined && { note }),
  };
}
