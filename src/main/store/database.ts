import fs from 'node:fs';
import path from 'node:path';
import Sqlite from 'better-sqlite3';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import { makeFolder } from '../writeWhole.ts';
import { type DatabaseProblem, type DatabaseProblemKind, databaseProblem } from './databaseProblem.ts';
import { intoTheFile, makeDurable } from './durable.ts';
import type { Migration } from './migration.ts';
import { migrations } from './migrations.ts';
import { applicationId, notAFile, pragmaNumber, recordsMissing, whatIsWrong } from './opening.ts';
import { sizeOf } from './fileSize.ts';
import { isCheckedFirst, wasFoundWhole } from './pagesChecked.ts';
import { salvage } from './salvage/salvage.ts';
import { type Place, watchPlace } from './place.ts';

import { openWitness, type Witness } from './witness.ts';

export const databaseName = 'axlewright.db';

/** How long another connection is waited for, ms. */
const timeout = 2000;

/** The one database of a data folder: records and journal. Open it once for each process. */
export interface Database {
  readonly sql: Sqlite.Database;
  readonly folder: string;
  readonly path: string;
  readonly clock: Clock;
  readonly place: Place;
  readonly witness: Witness;
  /** What was taken out of a damaged file when this was opened, and what was lost. */
  readonly salvaged?: DatabaseProblem;
  /**
   * The one way to write records: all of what `deed` writes or none of it, on disk when this returns. Fails when the file
   * is not where it was, or the disk refuses.
   */
  readonly write: <T>(deed: () => T) => Result<T>;
  readonly close: () => void;
}

interface OpenOptions {
  /**
   * A reader (command line, export) may open beside the running bench; it never writes or migrates. A thread of the bench itself
   * writes records by the pen that the bench holds, and leaves shape and witness to it.
   */
  readonly as?: 'bench' | 'reader' | 'thread';
  /** For tests: the list of migrations this program knows. */
  readonly migrations?: readonly Migration[];
}

/**
 * Opens `axlewright.db` in `folder`, making folder and file when there are none.
 * A file that is foreign, newer than this program, missing beside its own log or in use is left untouched and named. Of a
 * damaged one the bench takes what can be read into a new file, and keeps the damaged one beside it; a reader refuses it.
 * The bench holds the only right to write, because journal row numbers are given out in memory.
 */
export function openDatabase(
  folder: string,
  clock: Clock,
  options: OpenOptions = {},
): Result<Database, DatabaseProblemKind> {
  const file = path.join(folder, databaseName);
  const reader = options.as === 'reader' || options.as === 'thread';
  const known = options.migrations ?? migrations;
  const asking = { folder, file, clock, reader, known, writes: options.as !== 'reader' };
  const opened: { close: () => void }[] = [];
  const refuse = (problem: DatabaseProblem): Result<Database, DatabaseProblemKind> => {
    closeAll(opened);
    return fail(problem);
  };
  try {
    const strange = notAFile(folder);
    if (strange !== undefined) return refuse(strange);
    if (!reader) opened.push(holdTheOnlyPen(folder));
    const missing = recordsMissing(folder, file);
    if (missing !== undefined) return refuse(missing);
    if (!reader) keepPrivate(file);
    const first = openFile(asking, opened);
    if (first.ok || reader || first.problem.kind !== 'database-corrupt')
      return first.ok ? first : refuse(first.problem);
    const salvaged = salvage(folder, file, known);
    if (salvaged === undefined) return refuse(first.problem);
    const second = openFile({ ...asking, salvaged }, opened);
    return second.ok ? second : refuse(second.problem);
  } catch (error) {
    closeAll(opened);
    return fail(databaseProblem(error, file));
  }
}

interface Asking {
  readonly folder: string;
  readonly file: string;
  readonly clock: Clock;
  /** Takes what is there as it is. */
  readonly reader: boolean;
  readonly writes: boolean;
  readonly known: readonly Migration[];
  readonly salvaged?: DatabaseProblem;
}

/** Opens the file itself; what is not as it should be is not changed. */
function openFile(asking: Asking, opened: { close: () => void }[]): Result<Database, DatabaseProblemKind> {
  const { folder, file, clock, reader, writes, salvaged } = asking;
  const wrong = lookedThrough(asking);
  if (wrong !== undefined) return fail(wrong);
  const sql = new Sqlite(file, { readonly: !writes, fileMustExist: true, timeout });
  try {
    const opens = openWitness(sql, folder, clock);
    const witness = reader && writes ? { ...opens, note: () => undefined } : opens;
    if (reader && writes) makeDurable(sql);
    if (!reader) prepare(sql, asking, witness);
    opened.push(sql);
    const parts = { sql, folder, clock, witness, close: () => closeAll(opened) };
    return ok(databaseOf(salvaged === undefined ? parts : { ...parts, salvaged }));
  } catch (error) {
    sql.close();
    return fail(databaseProblem(error, file));
  }
}

/**
 * What is wrong with a file, looked at without the right to write: one that may write moves the log into a damaged file and
 * deletes it when it is closed, and what was in it is gone.
 */
function lookedThrough({ file, known, reader }: Asking): DatabaseProblem | undefined {
  if (!reader && sizeOf(file) === 0) return undefined;
  const everyPage = isCheckedFirst(file);
  const sql = new Sqlite(file, { readonly: true, fileMustExist: true, timeout });
  try {
    const wrong = whatIsWrong(sql, { known, reader, everyPage });
    if (wrong === undefined && everyPage && !reader) wasFoundWhole(file);
    return wrong;
  } catch (error) {
    return databaseProblem(error, file);
  } finally {
    sql.close();
  }
}

type Parts = Pick<Database, 'sql' | 'folder' | 'clock' | 'witness' | 'salvaged' | 'close'>;

function databaseOf({ sql, ...parts }: Parts): Database {
  const place = watchPlace(sql.name);
  return {
    ...parts,
    sql,
    path: sql.name,
    place,
    write<T>(deed: () => T): Result<T> {
      const gone = place.problem();
      if (gone !== undefined) return fail(gone);
      try {
        // The journal's thread writes too: a transaction that began as a reader's could not go on as a writer's after it.
        const value = sql.transaction(deed).immediate();
        intoTheFile(sql);
        parts.witness.note();
        return ok(value);
      } catch (error) {
        return fail(databaseProblem(error, sql.name));
      }
    },
  };
}

const closeAll = (opened: readonly { close: () => void }[]): void => {
  for (const each of opened.toReversed()) each.close();
};

/**
 * A second, empty database held in an exclusive transaction: the system lets go of it when this process
 * ends in whatever way, which a lock file with a process number in it would not.
 */
export function holdTheOnlyPen(folder: string): Sqlite.Database {
  // Customers' names stand in the records: nobody else on this machine reads them.
  makeFolder(folder, 0o700);
  const file = path.join(folder, 'axlewright.pen');
  keepPrivate(file);
  const pen = new Sqlite(file, { timeout: 0 });
  try {
    pen.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    pen.close();
    throw error;
  }
  return pen;
}

/** Makes the file if it is not there, for its owner alone; SQLite gives its log the same rights. */
function keepPrivate(file: string): void {
  fs.closeSync(fs.openSync(file, 'a', 0o600));
  fs.chmodSync(file, 0o600);
}

function prepare(sql: Sqlite.Database, { folder, known, salvaged }: Asking, witness: Witness): void {
  if (witness.lost !== undefined && salvaged === undefined) keepAsFound(sql.name, folder);
  makeDurable(sql);
  bringUpToDate(sql, folder, known);
  witness.note();
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
  if (fs.existsSync(copy)) return;
  sql.prepare('VACUUM INTO ?').run(copy);
  fs.chmodSync(copy, 0o600);
}

/** A database that has lost rows is copied as it was found, before anything more is written into it. */
function keepAsFound(file: string, folder: string): void {
  const beside = fs.mkdtempSync(path.join(folder, 'as-found-'));
  for (const ending of ['', '-wal']) {
    if (fs.existsSync(`${file}${ending}`))
      fs.copyFileSync(`${file}${ending}`, path.join(beside, `${databaseName}${ending}`));
  }
}
