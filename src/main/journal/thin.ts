import type { Database } from '../store/database.ts';

/** Between changes one reading in ten seconds stays, as a sign that the gauge was there and did not move. */
const heartbeat_ms = 10_000;
/** Rows looked at in one go, so that a bench at work is never held up for long. */
const rowsAtOnce = 100_000;

interface Thinned {
  readonly removed: number;
}

/**
 * Removes readings that say nothing new (the same value and unit before and after, within one heartbeat) from the
 * journal before `beforeAt_ms`. Stretches kept for a measurement stay whole, as does every row that is not
 * a reading. Where rows went, a row `thinned` says from where to where and how many.
 */
export function thinJournal(database: Database, beforeAt_ms: number): Thinned {
  const { sql } = database;
  const newest = sql.prepare('SELECT coalesce(max(seq), 0) FROM journal WHERE at < ?').pluck();
  const last = Number(newest.get(beforeAt_ms));
  let removed = 0;
  // Up to the last notice everything was looked at before, and a second look would find nothing.
  const begin = Number(
    sql.prepare("SELECT coalesce(max(seq) + 1, 1) FROM journal WHERE kind = 'thinned'").pluck().get(),
  );
  for (let from = begin; from <= last; from += rowsAtOnce) {
    removed += thinPiece(database, from, Math.min(from + rowsAtOnce - 1, last), beforeAt_ms);
  }
  return { removed };
}

function thinPiece({ sql }: Database, from: number, to: number, beforeAt_ms: number): number {
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
  const remove = sql.prepare('DELETE FROM journal WHERE seq = ?');
  const say = sql.prepare("INSERT INTO journal (seq, gauge, kind, t, at, note) VALUES (?, NULL, 'thinned', ?, ?, ?)");
  return sql.transaction(() => {
    const rows = idle.all({ from, to, before: beforeAt_ms });
    const first = rows[0];
    const end = rows.at(-1);
    if (first === undefined || end === undefined) return 0;
    for (const row of rows) remove.run(row.seq);
    // The notice takes the place of the first row removed, so that it is read where the gap begins.
    say.run(first.seq, first.t, first.at, `${rows.length} idle readings between ${first.seq} and ${end.seq}`);
    return rows.length;
  })();
}
