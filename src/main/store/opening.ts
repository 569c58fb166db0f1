import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type Sqlite from 'better-sqlite3';
import type { DatabaseProblem } from './databaseProblem.ts';
import { sizeOf, statOf } from './fileSize.ts';
import type { Migration } from './migration.ts';
import { pagesOf } from './pages.ts';
import { lackingShape } from './shape.ts';
import { wasWrittenIn } from './witness.ts';

/** 'AXLW' in the file's header says whose database it is (SQLite file format, application id). */
export const applicationId = 0x41_58_4c_57;

/**
 * Why no database may be made here although there is none, or an empty one: other files tell that there was one. SQLite
 * would throw its write-ahead log away, and the bench would open an empty shop.
 */
export function recordsMissing(folder: string, file: string): DatabaseProblem | undefined {
  if (sizeOf(file) >= leastDatabase_bytes) return undefined;
  const signs = [
    ...(sizeOf(`${file}-wal`) > 0 ? [`${file}-wal`] : []),
    ...(wasWrittenIn(folder) ? ['the record of what was written last'] : []),
    ...(holdsFiles(join(folder, 'certificates')) ? ['certificates'] : []),
  ];
  if (signs.length === 0) return undefined;
  return {
    kind: 'records-missing',
    sentence: `${file} is ${existsSync(file) ? 'all but empty' : 'not there'}, but ${signs.join(' and ')} beside it tell that there were records. Nothing has been changed.`,
    remedy: 'Put a backup of that file in its place, or start with another data folder.',
  };
}

/** What the bench opens in its folder. */
const opened = ['axlewright.pen', 'axlewright.db', 'axlewright.db-wal', 'axlewright.last', 'axlewright.key'] as const;

/** A folder, pipe or device in the place of one of our files: a pipe would be waited for without a word. */
export function notAFile(folder: string): DatabaseProblem | undefined {
  for (const file of opened.map((name) => join(folder, name))) {
    const about = statOf(file);
    if (about === undefined || about.isFile()) continue;
    const what = about.isDirectory() ? 'a folder' : 'a pipe or a device';
    return {
      kind: 'not-our-database',
      sentence: `${file} is ${what}, and the records would have a file of that name. Nothing has been changed.`,
      remedy: 'Move it away, or start with another data folder.',
    };
  }
  return undefined;
}

/** The smallest page SQLite knows; it takes a shorter file for an empty one and writes over it (file format, 1.3.2). */
const leastDatabase_bytes = 512;

function holdsFiles(folder: string): boolean {
  try {
    return readdirSync(folder).length > 0;
  } catch {
    return false;
  }
}

interface Look {
  /** The migrations this program knows. */
  readonly known: readonly Migration[];
  /** A reader cannot bring an older shape up to date. */
  readonly reader: boolean;
  /** Whether every page is looked at, which takes seconds where there are hundreds of megabytes. */
  readonly everyPage: boolean;
}

/** Why an opened database is not used: it is another program's, newer, or damaged. It has not been changed then. */
export function whatIsWrong(sql: Sqlite.Database, { known, reader, everyPage }: Look): DatabaseProblem | undefined {
  const file = sql.name;
  const version = pragmaNumber(sql, 'user_version');
  const empty = pragmaNumber(sql, 'schema_version') === 0;
  if (empty && !reader) return undefined;
  if (pragmaNumber(sql, 'application_id') !== applicationId) {
    return {
      kind: 'not-our-database',
      sentence: `${file} is a database of another program. Nothing in it has been changed.`,
      remedy: 'Move that file away, or start with another data folder.',
    };
  }
  if (version > known.length) return versionProblem(file, version, known.length);
  const found = everyPage ? pagesOf(sql) : 'ok';
  if (found !== 'ok') return damaged(file, found);
  if (version < 1) return damaged(file, `its version is ${version}`);
  const lacking = lackingShape(sql, known.slice(0, version));
  if (lacking.length > 0) return damaged(file, `${lacking.join(', ')} is not there as it was made`);
  return reader && version < known.length ? versionProblem(file, version, known.length) : undefined;
}

export const pragmaNumber = (sql: Sqlite.Database, name: string): number => Number(sql.pragma(name, { simple: true }));

const damaged = (file: string, why: string): DatabaseProblem => ({
  kind: 'database-corrupt',
  sentence: `${file} is damaged (${why}). Nothing in it has been changed.`,
  remedy: 'Copy that file somewhere else, then restore a backup or start with another data folder.',
});

const versionProblem = (file: string, found: number, known: number): DatabaseProblem => ({
  kind: 'database-newer',
  sentence: `${file} has version ${found}; this program reads version ${known}. Nothing in it has been changed.`,
  remedy:
    found > known
      ? 'Use the newer program that wrote it, or start with another data folder.'
      : 'Start the bench once with this data folder, so that it brings the database up to date.',
});
