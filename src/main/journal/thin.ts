import type { Database } from '../store/database.ts';

/** Between changes one reading in ten seconds stays, as a sign that the gauge was there and did not move. */
const heartbeat_ms = 10_000;

/**
 * Removes readings that say nothing new (the same value and unit before and after, within one heartbeat) from a piece of the
 * journal, where they came before `beforeAt_ms`. Stretches kept for a measurement stay whole, as does every row that is not
 * a reading. Where rows went, a row `thinned` says from where to where and how many. Call inside a transaction.
 * @returns how many were removed
 */
export function thinPiece({ sql }: Pick<Database, 'sql'>, from: number, to: number, beforeAt_ms: number): number {
  const idle = sql.prepare<unknown[], { readonly seq: number; readonly t: number; readonly at: number }>(`
    SELECT seq, t, at FROM (
      SELECT seq, t, at, kind,
        lag(seq) OVER line IS NOT NULL AND lead(seq) OVER line IS NOT NULL
          AND lag(kind) OVER line = 'reading' AND lead(kind) OVER line = 'reading'
          AND lag(value) OVER line = value AND lead(value) OVER line = value
          AND lag(unit) OVER line = unit AND lead(unit) OVER line = unit
          AND lag(at) OVER line / ${heartbeat_ms} = at / ${heartbeat_ms} AS says_nothing
      FROM journal WHERE seq BETWEEN :from AND :to
      WINDOW line AS (PARTITION BY gauge ORDER BY seq)
    )
    WHERE kind = 'reading' AND says_nothing AND at < :before
      AND NOT EXISTS (SELECT 1 FROM kept WHERE from_seq <= seq AND to_seq >= seq)
    ORDER BY seq`);
  const rows = idle.all({ from, to, before: beforeAt_ms });
  const first = rows[0];
  const end = rows.at(-1);
  if (first === undefined || end === undefined) return 0;
  const remove = sql.prepare('DELETE FROM journal WHERE seq = ?');
  for (const row of rows) remove.run(row.seq);
  // The notice takes the place of the first row removed, so that it is read where the gap begins.
  sql
    .prepare("INSERT INTO journal (seq, gauge, kind, t, at, note) VALUES (?, NULL, 'thinned', ?, ?, ?)")
    .run(first.seq, first.t, first.at, `${rows.length} idle readings between ${first.seq} and ${end.seq}`);
  return rows.length;
}
