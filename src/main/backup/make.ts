import { randomBytes } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, statfsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { databaseName } from '../store/database.ts';
import { keyFile } from '../store/identity.ts';
import { type About, backupName, backupTables } from './form.ts';
import { copyCertificates } from './certificates.ts';
import { countsIn, lookThrough } from './look.ts';
import { backupProblem, full, noPlace, stopped } from './problems.ts';
import { clearAbandoned, rotate } from './rotation.ts';
import { isFolder } from './place.ts';
import { ownBench } from './ownBench.ts';

export interface Making {
  /** The data folder; a bench may be at work in it. */
  readonly from: string;
  /** The folder the backup goes into; it must be there. */
  readonly into: string;
  readonly now_ms: number;
  /** Told how far it has come, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  readonly signal?: AbortSignal;
}

export interface Made extends Pick<About, 'at' | 'builds' | 'entries' | 'photos'> {
  readonly file: string;
  readonly bytes: number;
  readonly certificates: number;
  /** Older backups of this bench that were removed for it. */
  readonly removed: readonly string[];
}

/** So many pages at a time, then others have their turn. */
const pagesAtOnce = 64;

/**
 * Makes a backup: SQLite's own copy of one moment of the database, with the key in it, under another name until it has been
 * opened and looked through; then it takes its name in one step, and older ones that it makes superfluous go. Ended at any
 * point, it leaves the earlier backups as they were.
 */
export async function makeBackup(making: Making): Promise<Result<Made>> {
  const { into, now_ms } = making;
  if (!isFolder(into)) return fail(noPlace(into));
  try {
    clearAbandoned(into, now_ms);
    return await made(making);
  } catch (error) {
    return fail(error === halted ? stopped : backupProblem(error, into));
  }
}

const halted = Symbol('stopped');

async function made(making: Making): Promise<Result<Made>> {
  const { from, into, now_ms } = making;
  const source = new Sqlite(join(from, databaseName), { readonly: true, fileMustExist: true });
  try {
    // One moment of it: what is written meanwhile is not in the copy, and does not begin it anew.
    source.exec('BEGIN');
    const bench = ownBench(source);
    if (needs_bytes(source) > room_bytes(into)) return fail(full(into));
    const at = new Date(now_ms).toISOString();
    const certificates = copyCertificates(from, into, bench.id);
    const about: About = { kind: 'axlewright-backup', version: 1, at, bench, ...countsIn(source), certificates };
    const name = backupName(bench.id, at);
    const part = join(into, `${name}.${randomBytes(4).toString('hex')}.part`);
    try {
      await copyInto(source, part, making);
      complete(part, about, readFileSync(keyFile(from), 'utf8'));
      const sound = lookThrough(part);
      if (!sound.ok) return sound;
      if (making.signal?.aborted === true) throw halted;
      renameSync(part, join(into, name));
    } finally {
      for (const ending of ['', '-journal', '-wal', '-shm']) rmSync(`${part}${ending}`, { force: true });
    }
    onDisk(into);
    const removed = rotate(into, bench.id, name);
    const { size } = statSync(join(into, name));
    const { builds, entries, photos } = about;
    return ok({
      file: join(into, name),
      bytes: size,
      at,
      builds,
      entries,
      photos,
      certificates: certificates.length,
      removed,
    });
  } finally {
    source.close();
  }
}

/** For its owner alone, where the disk knows owners. */
async function copyInto(source: Sqlite.Database, part: string, { onProgress, signal }: Making): Promise<void> {
  closeSync(openSync(part, 'wx', 0o600));
  await source.backup(part, {
    progress({ totalPages, remainingPages }) {
      if (signal?.aborted === true) throw halted;
      if (totalPages > 0) onProgress?.(1 - remainingPages / totalPages);
      return pagesAtOnce;
    },
  });
}

function complete(part: string, about: About, pem: string): void {
  const copy = new Sqlite(part);
  try {
    // No log beside it: a backup is one file.
    copy.pragma('journal_mode = DELETE');
    copy.pragma('synchronous = FULL');
    copy.transaction(() => {
      copy.exec(backupTables);
      copy.prepare('INSERT INTO backup_about (record) VALUES (?)').run(JSON.stringify(about));
      copy.prepare('INSERT INTO backup_key (pem) VALUES (?)').run(pem);
    })();
  } finally {
    copy.close();
  }
  onDisk(part);
}

/** The pages of the copy and a little for the tables more. */
const needs_bytes = (source: Sqlite.Database): number =>
  Number(source.pragma('page_count', { simple: true })) * Number(source.pragma('page_size', { simple: true })) +
  262_144;

/** Where the disk does not say, it is found out by writing. */
function room_bytes(folder: string): number {
  try {
    const { bavail, bsize } = statfsSync(folder);
    return bavail * bsize;
  } catch {
    return Number.POSITIVE_INFINITY;
  }
}

/** Some disks of sticks do not sync folders; the file itself is safe then all the same. */
function onDisk(path: string): void {
  try {
    const opened = openSync(path, 'r');
    try {
      fsyncSync(opened);
    } finally {
      closeSync(opened);
    }
  } catch {
    if (basename(path).includes('.part')) throw new Error(`${path} could not be synced`);
  }
}
