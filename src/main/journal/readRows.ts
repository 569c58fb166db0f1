import type { Database as Sql } from 'better-sqlite3';
import { type Block, unpackBlock } from './blocks/block.ts';
import type { JournalRow } from './entry.ts';
import { rowFrom, type StoredRow } from './storedRow.ts';

/** Rows are read a page at a time: a day of readings never has to fit in memory, and writing goes on between pages. */
const pageRows = 4096;

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
  const number = gauge === undefined ? undefined : numberOf(names, gauge);
  for (const page of pagesFrom(pageReader(sql, { gauge: number, bytes }), fromSeq, toSeq))
    for (const row of page) yield rowFrom(row, names);
}

/** Reads stretches as they lie on disk, a page at a time, for whoever reads many: with their bytes, and gauges by their number. */
export function storedReader(
  sql: Sql,
): (gauge: string, fromSeq: number, toSeq: number) => Generator<readonly StoredRow[], void> {
  const readers = new Map<string, PageReader>();
  return (gauge, fromSeq, toSeq) => {
    let reader = readers.get(gauge);
    if (reader === undefined) {
      const number = numberOf(gaugeNames(sql), gauge);
      reader = pageReader(sql, { gauge: number, bytes: true });
      // A gauge that has sent nothing yet gets its number later.
      if (number !== nobody) readers.set(gauge, reader);
    }
    return pagesFrom(reader, fromSeq, toSeq);
  };
}

function* pagesFrom(pageFrom: PageReader, fromSeq: number, toSeq: number): Generator<readonly StoredRow[], void> {
  for (let next = fromSeq; next <= toSeq;) {
    const page = pageFrom(next, toSeq);
    yield page.rows;
    next = page.next;
  }
}

interface Asked {
  /** The gauge's number; without it every gauge. */
  readonly gauge: number | undefined;
  readonly bytes: boolean;
}

interface Page {
  readonly rows: readonly StoredRow[];
  /** The row number the next page begins at. */
  readonly next: number;
}

type PageReader = (next: number, toSeq: number) => Page;

/**
 * Gives pages from a row number on, out of the journal or the block that holds it. Each page is read in a transaction: between
 * two looks another process may move rows from the one into the other.
 */
function pageReader(sql: Sql, asked: Asked): PageReader {
  const { gauge, bytes } = asked;
  const blockAt = sql.prepare<[number], Block>(
    'SELECT from_seq, to_seq, rows, format, crc, bytes FROM journal_block WHERE to_seq >= ? ORDER BY to_seq LIMIT 1',
  );
  const page = sql
    .prepare<[number, number, number | null, number | null, number]>(`
      SELECT seq, gauge, kind, t, at, value, unit, ${bytes ? 'raw' : bytesOfUnreadable}, note FROM journal
      WHERE seq >= ? AND seq <= ? AND (? IS NULL OR gauge IS NULL OR gauge = ?)
      ORDER BY seq LIMIT ?`)
    .raw();
  return sql.transaction((next: number, toSeq: number): Page => {
    const block = blockAt.get(next);
    if (block !== undefined && block.from_seq <= next) return pageOf(block, { from: next, to: toSeq }, asked);
    const end = Math.min(toSeq, (block?.from_seq ?? Number.POSITIVE_INFINITY) - 1);
    const rows = page.all(next, end, gauge ?? null, gauge ?? null, pageRows) as StoredRow[];
    const last = rows.at(-1);
    return { rows, next: last !== undefined && rows.length === pageRows ? last[0] + 1 : end + 1 };
  });
}

/** The rows of a block from a number on. Where it is damaged a row says so in their place: nothing drops out in silence. */
function pageOf(block: Block, { from, to }: { readonly from: number; readonly to: number }, asked: Asked): Page {
  const rows = unpackBlock(block, asked);
  const damaged: StoredRow = [from, null, 'lost', 0, 0, null, null, null, `${block.rows} rows in a damaged block`];
  return {
    rows: (rows ?? [damaged]).filter(([seq]) => seq >= from && seq <= to),
    next: block.to_seq + 1,
  };
}

function gaugeNames(sql: Sql): ReadonlyMap<number, string> {
  const rows = sql.prepare('SELECT number, gauge FROM journal_gauge').raw().all() as [number, string][];
  return new Map(rows);
}

/** A gauge that never sent anything has no number, and this is nobody's. */
const nobody = 0;
const numberOf = (names: ReadonlyMap<number, string>, gauge: string): number =>
  [...names].find(([, name]) => name === gauge)?.[0] ?? nobody;
