import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { databaseName, holdTheOnlyPen } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { openBackupChoices } from '../store/backupChoice.ts';
import { sizeOf } from '../store/fileSize.ts';
import { keyFile } from '../store/identity.ts';
import { witnessFile } from '../store/witness.ts';
import { writeWhole } from '../writeWhole.ts';
import { bringCertificates } from './certificates.ts';
import { type About, certificatesName, withoutBackupTables } from './form.ts';
import { lookThrough, type Sound } from './look.ts';
import { recordsIn } from './recordsThere.ts';

/** What came out of a backup. */
interface Restored extends Pick<About, 'bench' | 'at' | 'builds' | 'entries' | 'photos'> {
  readonly folder: string;
  readonly certificates: number;
  /** Certificates that the backup names and that do not lie beside it. */
  readonly missing: readonly string[];
  /** Where what lay in the way has gone: nothing is thrown away. */
  readonly before?: string;
}

/**
 * Puts a backup into a data folder: one that is not there, that is empty, whose database is gone, or in which nobody has worked
 * yet. Where there are records it refuses and changes nothing. Ended in the middle it can be called again.
 */
export function restore(file: string, folder: string): Result<Restored> {
  const sound = lookThrough(file);
  if (!sound.ok) return sound;
  return withThePen(folder, () => {
    const there = recordsIn(folder);
    if (there !== undefined) return fail(there);
    const staged = newStage(folder);
    try {
      const missing = stage(file, staged, sound.value);
      return ok(told(sound.value.about, folder, missing, putInPlace(staged, folder)));
    } finally {
      rmSync(staged, { recursive: true, force: true });
    }
  });
}

/** Whoever calls holds the only right to write here: what lies there already was left by a program that was ended. */
function newStage(folder: string): string {
  for (const name of readdirSync(folder))
    if (name.startsWith(staging)) rmSync(join(folder, name), { recursive: true, force: true });
  return mkdtempSync(join(folder, staging));
}

const staging = 'restoring-';

/** The name says that it is whole: it is given in one step, when everything is on disk. */
const nextStart = 'restore-next';

/** The same for a bench that is running: everything is laid ready beside its records, and taken up when it is next started. */
export function restoreAtNextStart(file: string, folder: string): Result<Restored> {
  const sound = lookThrough(file);
  if (!sound.ok) return sound;
  try {
    const there = recordsIn(folder);
    if (there !== undefined) return fail(there);
    const staged = newStage(folder);
    try {
      const missing = stage(file, staged, sound.value);
      rmSync(join(folder, nextStart), { recursive: true, force: true });
      renameSync(staged, join(folder, nextStart));
      return ok(told(sound.value.about, folder, missing, undefined));
    } finally {
      rmSync(staged, { recursive: true, force: true });
    }
  } catch (error) {
    return fail(databaseProblem(error, folder));
  }
}

/** Takes up what was laid ready; call before the records are opened. Where somebody has worked since, it stays where it is. */
export function takeUpRestore(folder: string): Result<void> {
  const staged = join(folder, nextStart);
  if (!existsSync(staged)) return ok(undefined);
  return withThePen(folder, () => {
    const there = recordsIn(folder);
    if (there !== undefined) return ok(undefined);
    putInPlace(staged, folder);
    rmSync(staged, { recursive: true, force: true });
    return ok(undefined);
  });
}

function withThePen<T>(folder: string, deed: () => Result<T>): Result<T> {
  try {
    const pen = holdTheOnlyPen(folder);
    try {
      return deed();
    } finally {
      pen.close();
    }
  } catch (error) {
    return fail(databaseProblem(error, folder));
  }
}

function told(about: About, folder: string, missing: readonly string[], before: string | undefined): Restored {
  const { bench, at, builds, entries, photos } = about;
  const certificates = about.certificates.length - missing.length;
  return {
    folder,
    bench,
    at,
    builds,
    entries,
    photos,
    certificates,
    missing,
    ...(before === undefined ? {} : { before }),
  };
}

/** The database without what made it a backup, the key and the certificates, on disk; gives the certificates not found. */
function stage(file: string, staged: string, { about, pem }: Sound): readonly string[] {
  const database = join(staged, databaseName);
  closeSync(openSync(database, 'wx', 0o600));
  copyFileSync(file, database);
  const sql = new Sqlite(database);
  try {
    sql.pragma('synchronous = FULL');
    sql.exec(withoutBackupTables);
    noteOrigin(sql, file, about);
  } finally {
    sql.close();
  }
  const opened = openSync(database, 'r+');
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
  writeWhole(keyFile(staged), pem);
  const beside = join(dirname(file), certificatesName(about.bench.id));
  return bringCertificates(about.certificates, beside, join(staged, 'certificates'));
}

/** What was restored is in a backup: the one it came from. */
function noteOrigin(sql: Sqlite.Database, file: string, { at, builds }: About): void {
  const choices = openBackupChoices({ sql, write: (deed) => ok(deed()) });
  const last = { at, file, bytes: sizeOf(file), builds, recorded: choices.recorded(), line: choices.lastLine() };
  choices.write({ ...choices.read(), last }, at);
}

/** What lies in the way goes aside first, the database comes last: until then the folder has none, and says so. */
function putInPlace(staged: string, folder: string): string | undefined {
  const own = [databaseName, `${databaseName}-wal`, `${databaseName}-shm`].map((name) => join(folder, name));
  // Taken up again after an end in the middle: what is in place already does not go aside.
  const isHere = existsSync(join(staged, databaseName));
  const inTheWay = [...own, witnessFile(folder), ...(existsSync(keyFile(staged)) ? [keyFile(folder)] : [])].filter(
    (path) => existsSync(path),
  );
  const before = inTheWay.length === 0 || !isHere ? undefined : mkdtempSync(join(folder, 'before-restore-'));
  if (before !== undefined) for (const path of inTheWay) renameSync(path, join(before, path.slice(folder.length + 1)));
  if (existsSync(keyFile(staged))) renameSync(keyFile(staged), keyFile(folder));
  moveCertificates(join(staged, 'certificates'), join(folder, 'certificates'));
  if (isHere) renameSync(join(staged, databaseName), join(folder, databaseName));
  return before;
}

/** Never over one that is there. */
function moveCertificates(from: string, into: string): void {
  if (!existsSync(from)) return;
  if (!existsSync(into)) mkdirSync(into, { mode: 0o700 });
  for (const name of readdirSync(from))
    if (!existsSync(join(into, name))) renameSync(join(from, name), join(into, name));
}
