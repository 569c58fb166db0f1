import { createHash } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type Sqlite from 'better-sqlite3';
import { z } from 'zod';
import type { Clock } from '../clock.ts';
import { writeWhole } from '../writeWhole.ts';
import type { DatabaseProblem } from './databaseProblem.ts';

/**
 * A small record beside the database of what was last written into it. SQLite opens a file whose write-ahead log was
 * deleted, cut off or lost with its disk without a word, and shows an older state as if it were all; this record knows
 * better. It is written after the rows are safe, so it never promises more than there was.
 */
export interface Witness {
  /** What the record says is missing from the database as it was found. */
  readonly lost: DatabaseProblem | undefined;
  /** The last journal row that was known to be safe in earlier runs. */
  readonly journal: number;
  /** Writes down how far the database goes now, safe when this returns. */
  note(): void;
  /** The same for readings: at most once a second and without waiting for the disk. */
  noteSoon(): void;
}

/** Tables whose rows only ever grow in number, each with what its rows are called. */
export const counted: Readonly<Record<string, string>> = {
  notebook_entry: 'entries of notebooks',
  gauge_revision: 'records of gauges',
  gauge_check: 'checks of gauges',
  drawer_revision: 'states of the drawer',
  journal: 'readings',
  journal_block: 'blocks of readings',
};
const tables = Object.keys(counted);

const toldSchema = z.object({
  version: z.literal(1),
  at: z.iso.datetime(),
  /** The highest row number of each table. */
  rows: z.record(z.string(), z.int().min(0)),
  /** SHA-256 of the last notebook entry. */
  lastEntry: z.string(),
});
type Told = z.infer<typeof toldSchema>;

const every_s = 1;

export const witnessFile = (folder: string): string => join(folder, 'axlewright.last');

export function openWitness(sql: Sqlite.Database, folder: string, clock: Clock): Witness {
  const before = toldBefore(folder);
  const lost = before === undefined ? undefined : lostSince(before, seenIn(sql, before), sql.name);
  let noted_s = Number.NEGATIVE_INFINITY;
  const write = (isSafe: boolean): void => {
    noted_s = clock.monotonic_s();
    const told: Told = { version: 1, at: new Date(clock.wall_ms()).toISOString(), ...seenIn(sql) };
    try {
      if (isSafe) writeWhole(witnessFile(folder), JSON.stringify(told));
      else writeSoon(witnessFile(folder), JSON.stringify(told));
    } catch {
      // A full disk may take the rows and not this. The rows are safe all the same, and an older record is never wrong.
    }
  };
  return {
    lost,
    journal: before?.rows['journal'] ?? 0,
    note: () => write(true),
    noteSoon: () => {
      if (clock.monotonic_s() - noted_s >= every_s) write(false);
    },
  };
}

/** Whether the record says that there was anything in the database of this folder. */
export function wasWrittenIn(folder: string): boolean {
  const before = toldBefore(folder);
  return before !== undefined && Object.values(before.rows).some((last) => last > 0);
}

/** The last row number of each table, as the record of this folder has it; empty where there is none. */
export const rowsKnown = (folder: string): Readonly<Record<string, number>> => toldBefore(folder)?.rows ?? {};

/** A record that cannot be read says nothing; it is written anew with the next row. */
function toldBefore(folder: string): Told | undefined {
  try {
    return toldSchema.safeParse(JSON.parse(readFileSync(witnessFile(folder), 'utf8'))).data;
  } catch {
    return undefined;
  }
}

type Seen = Pick<Told, 'rows' | 'lastEntry'>;

/** How far the database goes; the entry looked at is the one that the earlier record calls the last. */
function seenIn(sql: Sqlite.Database, before?: Told): Seen {
  const there = new Set(sql.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all());
  const rows = Object.fromEntries(
    tables
      .filter((table) => there.has(table))
      .map((table) => [table, Math.max(...columnsIn(table, there).map((of) => lastIn(sql, of)))]),
  );
  const line = before?.rows['notebook_entry'] ?? rows['notebook_entry'] ?? 0;
  return { rows, lastEntry: there.has('notebook_entry') ? entryHash(sql, line) : '' };
}

interface Column {
  readonly table: string;
  readonly column: string;
}

/** Readings that were packed have left the journal, and their numbers stand in its blocks. */
const columnsIn = (table: string, there: ReadonlySet<unknown>): readonly Column[] => [
  { table, column: 'rowid' },
  ...(table === 'journal' && there.has('journal_block') ? [{ table: 'journal_block', column: 'to_seq' }] : []),
];

const lastIn = (sql: Sqlite.Database, { table, column }: Column): number =>
  Number(sql.prepare(`SELECT coalesce(max(${column}), 0) FROM ${table}`).pluck().get());

function entryHash(sql: Sqlite.Database, line: number): string {
  const row = sql.prepare('SELECT id, build, at, by, deed FROM notebook_entry WHERE line = ?').raw().get(line);
  return row === undefined ? '' : createHash('sha256').update(JSON.stringify(row)).digest('hex');
}

function lostSince(before: Told, seen: Seen, file: string): DatabaseProblem | undefined {
  const missing = tables.flatMap((table) => {
    const count = (before.rows[table] ?? 0) - (seen.rows[table] ?? 0);
    return count > 0 ? [`${count} ${counted[table]}`] : [];
  });
  if (missing.length === 0 && before.lastEntry === seen.lastEntry) return undefined;
  const what =
    missing.length === 0
      ? `The last entry of a notebook in ${file} is not the one that was written`
      : `Missing from ${file}: ${missing.join(', ')} that were on disk on ${before.at.slice(0, 16).replace('T', ' ')} UTC`;
  return {
    kind: 'records-lost',
    sentence: `${what}. The disk, a copy or another program has lost them.`,
    remedy: 'The files as they were found are kept beside it. Compare with a backup before you go on.',
  };
}

/** Whole too, but not waited for on the disk: readings go on meanwhile, and a second of them may be unnoted. */
function writeSoon(file: string, text: string): void {
  const beside = `${file}.part`;
  writeFileSync(beside, text, { mode: 0o600 });
  renameSync(beside, file);
}
