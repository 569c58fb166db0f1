import fs from 'node:fs';
import path from 'node:path';
import Sqlite from 'better-sqlite3';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import { type DatabaseProblem, type DatabaseProblemKind, databaseProblem } from './databaseProblem.ts';
import type { Migration } from './migration.ts';
import { migrations } from './migrations.ts';

/** 'AXLW' in the file's header says whose database it is (SQLite file format, application id). */
export const applicationId = 0x41_58_4c_57;
export const databaseName = 'axlewright.db';

/** The one database of a data folder: records and journal. Open it once for each process. */
export interface Database {
  readonly sql: Sqlite.Database;
  readonly folder: string;
  readonly path: string;
  readonly clock: Clock;
  readonly close: () => void;
}

export interface OpenOptions {
  /** A reader (command line, export) may open beside the running bench; it never writes or migrates. */
  readonly as?: 'bench' | 'reader';
  /** For tests: the list of migrations this program knows. */
  readonly migrations?: readonly Migration[];
}

/**
 * Opens `axlewright.db` in `folder`, making folder and file when there are none.
 * A file that is damaged, foreign, newer than this program or in use is left untouched and named.
 * The bench holds the only right to write, because journal row numbers are given out in memory.
 */
export function openDatabase(
  folder: string,
  clock: Clock,
  options: OpenOptions = {},
): Result<Database, DatabaseProblemKind> {
  const file = path.join(folder, databaseName);
  const reader = options.as === 'reader';
  const opened: { close: () => void }[] = [];
  try {
    if (!reader) fs.mkdirSync(folder, { recursive: true });
    if (!reader) opened.push(holdTheOnlyPen(folder));
    const sql = new Sqlite(file, { readonly: reader, fileMustExist: reader, timeout: 2000 });
    opened.push(sql);
    const problem = whatIsWrong(sql, file, options.migrations ?? migrations, reader);
    if (problem !== undefined) {
      closeAll(opened);
      return fail(problem);
    }
    if (!reader) {
      makeDurable(sql);
      bringUpToDate(sql, folder, options.migrations ?? migrations);
    }
    return ok({ sql, folder, path: file, clock, close: () => closeAll(opened) });
  } catch (error) {
    closeAll(opened);
    return fail(databaseProblem(error, file));
  }
}

const closeAll = (opened: readonly { close: () => void }[]): void => {
  for (const each of opened.toReversed()) each.close();
};

/**
 * A second, empty database held in an exclusive transaction: the system lets go of it when this process
 * ends in whatever way, which a lock file with a process number in it would not.
 */
function holdTheOnlyPen(folder: string): Sqlite.Database {
  const pen = new Sqlite(path.join(folder, 'axlewright.pen'), { timeout: 0 });
  try {
    pen.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    pen.close();
    throw error;
  }
  return pen;
}

function whatIsWrong(
  sql: Sqlite.Database,
  file: string,
  known: readonly Migration[],
  reader: boolean,
): DatabaseProblem | undefined {
  const id = pragmaNumber(sql, 'application_id');
  const version = pragmaNumber(sql, 'user_version');
  const empty = pragmaNumber(sql, 'schema_version') === 0;
  if (empty && !reader) return undefined;
  if (id !== applicationId) {
    return {
      kind: 'not-our-database',
      sentence: `${file} is a database of another program. Nothing in it has been changed.`,
      remedy: 'Move that file away, or start with another data folder.',
    };
  }
  if (version !== known.length && (version > known.length || reader))
    return versionProblem(file, version, known.length);
  const found = sql.pragma('quick_check(1)', { simple: true });
  if (found === 'ok') return undefined;
  return {
    kind: 'database-corrupt',
    sentence: `${file} is damaged (${String(found)}). Nothing in it has been changed.`,
    remedy: 'Copy that file somewhere safe, then restore a backup or start with another data folder.',
  };
}

const versionProblem = (file: string, found: number, known: number): DatabaseProblem => ({
  kind: 'database-newer',
  sentence: `${file} has version ${found}; this program reads version ${known}. Nothing in it has been changed.`,
  remedy:
    found > known
      ? 'Use the newer program that wrote it, or start with another data folder.'
      : 'Start the bench once with this data folder, so that it brings the database up to date.',
});

const pragmaNumber = (sql: Sqlite.Database, name: string): number => Number(sql.pragma(name, { simple: true }));

/** Write-ahead log and a sync on every commit: what was acknowledged survives the end of the process and of power. */
function makeDurable(sql: Sqlite.Database): void {
  sql.pragma('journal_mode = WAL');
  sql.pragma('synchronous = FULL');
  // Moved into the file often and a little at a time: every 1,000 pages, as SQLite does by itself, readings were held up
  // by 14 to 30 ms each time; at 256 pages by 5 (measured by commits of four rows, 110 a second).
  sql.pragma('wal_autocheckpoint = 256');
  sql.pragma('foreign_keys = ON');
}

function bringUpToDate(sql: Sqlite.Database, folder: string, known: readonly Migration[]): void {
  const version = pragmaNumber(sql, 'user_version');
  if (version === known.length) return;
  if (version > 0) copyBeforeChanging(sql, folder, version);
  sql.transaction(() => {
    for (const migration of known.slice(version)) sql.exec(migration.sql);
    sql.pragma(`application_id = ${applicationId}`);
    sql.pragma(`user_version = ${known.length}`);
  })();
}

/** Before a shape is changed the old database is copied beside it, once for each version. */
function copyBeforeChanging(sql: Sqlite.Database, folder: string, version: number): void {
  const copy = path.join(folder, `axlewright-version-${version}.db`);
  if (!fs.existsSync(copy)) sql.prepare('VACUUM INTO ?').run(copy);
}
