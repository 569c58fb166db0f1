import type { Database as Sql } from 'better-sqlite3';
import type { JournalRow } from './entry.ts';

export interface RowWriter {
  /** All of the rows or none of them; synced to disk when it returns. */
  readonly write: (rows: readonly JournalRow[]) => void;
  /** The same for rows of which some may be there already: each takes the place of itself. */
  readonly writeAgain: (rows: readonly JournalRow[]) => void;
  readonly keep: (fromSeq: number, toSeq: number, because: string) => void;
  readonly lastSeq: () => number;
}

/** Prepared statements for the journal's tables. */
export function rowWriter(sql: Sql): RowWriter {
  const into = 'INTO journal (seq, gauge, kind, t, at, value, unit, raw, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)';
  const insert = sql.prepare(`INSERT ${into}`);
  const replace = sql.prepare(`INSERT OR REPLACE ${into}`);
  const keep = sql.prepare('INSERT OR IGNORE INTO kept (from_seq, to_seq, because) VALUES (?, ?, ?)');
  const last = sql
    .prepare(
      'SELECT max(coalesce((SELECT max(seq) FROM journal), 0), coalesce((SELECT max(to_seq) FROM journal_block), 0))',
    )
    .pluck();
  const numbers = gaugeNumbers(sql);
  const writeAll = sql.transaction((rows: readonly JournalRow[], statement: typeof insert) => {
    for (const row of rows) {
      const { value, unit, raw, note } = columnsOf(row);
      const gauge = row.gauge === undefined ? null : numbers.of(row.gauge);
      statement.run(row.seq, gauge, row.kind, row.t, Math.round(row.at), value, unit, raw, note);
    }
  });
  const write = (rows: readonly JournalRow[], statement: typeof insert): void => {
    try {
      writeAll.immediate(rows, statement);
    } catch (error) {
      // A number given inside a transaction that was rolled back was never given.
      numbers.forget();
      throw error;
    }
  };
  return {
    write: (rows) => write(rows, insert),
    writeAgain: (rows) => write(rows, replace),
    keep: (fromSeq, toSeq, because) => void keep.run(fromSeq, toSeq, because),
    lastSeq: () => Number(last.get()),
  };
}

interface Columns {
  readonly value: number | null;
  readonly unit: string | null;
  readonly raw: Uint8Array | null;
  readonly note: string | null;
}

function columnsOf(row: JournalRow): Columns {
  if (row.kind === 'reading') return { value: row.value, unit: row.unit, raw: row.raw, note: row.note ?? null };
  if (row.kind === 'unreadable') return { value: null, unit: null, raw: row.raw, note: row.note };
  return { value: null, unit: null, raw: null, note: row.note ?? null };
}

interface GaugeNumbers {
  readonly of: (gauge: string) => number;
  readonly forget: () => void;
}

/** The small number a gauge has in the journal, given on first sight. */
function gaugeNumbers(sql: Sql): GaugeNumbers {
  const find = sql.prepare('SELECT number FROM journal_gauge WHERE gauge = ?').pluck();
  const add = sql.prepare('INSERT OR IGNORE INTO journal_gauge (gauge) VALUES (?)');
  const seen = new Map<string, number>();
  const look = (gauge: string): number => {
    add.run(gauge);
    const number = Number(find.get(gauge));
    seen.set(gauge, number);
    return number;
  };
  return { of: (gauge) => seen.get(gauge) ?? look(gauge), forget: () => seen.clear() };
}
