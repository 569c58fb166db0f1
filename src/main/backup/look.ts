import { createPrivateKey } from 'node:crypto';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { migrations } from '../store/migrations.ts';
import { whatIsWrong } from '../store/opening.ts';
import { publicKeyOf } from '../store/signing.ts';
import { type About, aboutSchema } from './form.ts';
import { notABackup } from './problems.ts';
import { isBackupName } from './rotation.ts';

/** A backup that was opened, looked through and found whole. */
export interface Sound {
  readonly about: About;
  readonly pem: string;
}

/**
 * Opens a backup as a restore would and looks through it: every page of the database, the shape of its tables, what it says of
 * itself against what is in it, and whether the key is the one of its bench. Nothing is written.
 */
export function lookThrough(file: string): Result<Sound> {
  try {
    if (!statSync(file).isFile()) return fail(notABackup(file, 'it is no file'));
    const sql = new Sqlite(file, { readonly: true, fileMustExist: true });
    try {
      const wrong = whatIsWrong(sql, { known: migrations, reader: false, everyPage: true });
      return wrong === undefined ? soundOf(sql, file) : fail(ofBackup(wrong, file));
    } finally {
      sql.close();
    }
  } catch (error) {
    return fail(ofBackup(databaseProblem(error, file), file));
  }
}

/** A newer program's is said as such; everything else is simply no backup to be trusted. */
const ofBackup = (problem: Problem, file: string): Problem =>
  problem.kind === 'database-newer' ? problem : notABackup(file, problem.sentence.replace(/\.$/u, ''));

function soundOf(sql: Sqlite.Database, file: string): Result<Sound> {
  const about = aboutIn(sql);
  if (about === undefined) return fail(notABackup(file, 'it does not say what it is a backup of'));
  const found = countsIn(sql);
  if (found.builds !== about.builds || found.entries !== about.entries || found.photos !== about.photos)
    return fail(notABackup(file, 'what is in it is not what it says'));
  const pem = sql.prepare<[], string>('SELECT pem FROM backup_key').pluck().get();
  if (pem === undefined || publicKeyIn(pem) !== about.bench.key)
    return fail(notABackup(file, 'its key is not the one of its bench'));
  return ok({ about, pem });
}

/** The public key that belongs to this private one; undefined where a bit of it is wrong and it is none at all. */
function publicKeyIn(pem: string): string | undefined {
  try {
    return publicKeyOf(createPrivateKey(pem));
  } catch {
    return undefined;
  }
}

function aboutIn(sql: Sqlite.Database): About | undefined {
  const table = sql.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'backup_about'").get();
  const record =
    table === undefined ? undefined : sql.prepare<[], string>('SELECT record FROM backup_about').pluck().get();
  return record === undefined ? undefined : aboutSchema.safeParse(parsed(record)).data;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** What people count in a database. */
export function countsIn(sql: Sqlite.Database): Pick<About, 'builds' | 'entries' | 'photos'> {
  const count = (what: string): number => Number(sql.prepare(`SELECT ${what}`).pluck().get());
  return {
    builds: count('count(DISTINCT build) FROM notebook_entry'),
    entries: count('count(*) FROM notebook_entry'),
    photos: count('count(*) FROM photo'),
  };
}

/** A backup as it is offered, by what it says of itself; it has not been looked through. */
interface Offered extends Pick<About, 'at' | 'bench' | 'builds'> {
  readonly file: string;
  readonly bytes: number;
}

/** The backups in a folder, of whatever bench, the newest first; what cannot be read is left out. */
export function backupsIn(folder: string): readonly Offered[] {
  return readdirSync(folder)
    .filter(isBackupName)
    .flatMap((name) => offered(join(folder, name)))
    .toSorted((one, other) => (one.at < other.at ? 1 : -1));
}

function offered(file: string): readonly Offered[] {
  try {
    const { size } = statSync(file);
    const sql = new Sqlite(file, { readonly: true, fileMustExist: true });
    try {
      const about = aboutIn(sql);
      return about === undefined ? [] : [{ file, bytes: size, at: about.at, bench: about.bench, builds: about.builds }];
    } finally {
      sql.close();
    }
  } catch {
    return [];
  }
}
