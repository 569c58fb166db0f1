import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdtempSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { writeWhole } from '../../writeWhole.ts';
import type { DatabaseProblem } from '../databaseProblem.ts';
import type { Migration } from '../migration.ts';
import { applicationId, pragmaNumber } from '../opening.ts';
import { lackingShape } from '../shape.ts';
import { counted, rowsKnown } from '../witness.ts';
import { unlessDamaged } from './ranges.ts';
import { type Carried, carryTables } from './tables.ts';

/**
 * Takes what can be read of a damaged database into a new file and puts that in its place. The damaged file and its log are
 * kept, byte for byte, in a folder of their own. Call while holding the only right to write.
 * @returns what to tell the person; undefined where nothing could be taken, and then nothing was changed.
 * @throws what the disk says: nothing was changed then either.
 */
export function salvage(folder: string, file: string, known: readonly Migration[]): DatabaseProblem | undefined {
  const kept = mkdtempSync(join(folder, 'damaged-'));
  let carried: ReadonlyMap<string, Carried> | undefined;
  try {
    copyWithLog(file, join(kept, basename(file)));
    carried = carriedOver(file, kept, known, rowsKnown(folder));
    if (carried !== undefined) putInPlace(file, kept);
  } finally {
    for (const name of ['work', 'saved'])
      for (const ending of ['.db', '.db-wal', '.db-shm', '.db-journal'])
        rmSync(join(kept, `${name}${ending}`), { force: true });
    if (carried === undefined) rmSync(kept, { recursive: true, force: true });
  }
  if (carried === undefined) return undefined;
  const told = salvaged(file, kept, carried);
  writeWhole(join(kept, 'what-was-saved.txt'), `${told.sentence}\n${told.remedy}\n`);
  return told;
}

function carriedOver(
  file: string,
  kept: string,
  known: readonly Migration[],
  before: Readonly<Record<string, number>>,
): ReadonlyMap<string, Carried> | undefined {
  const work = join(kept, 'work.db');
  copyWithLog(file, work);
  fillUp(work);
  const from = new Sqlite(work);
  try {
    const version = versionOf(from, known);
    if (version === undefined) return undefined;
    const into = new Sqlite(join(kept, 'saved.db'));
    try {
      into.pragma('foreign_keys = OFF');
      const carried = into.transaction(() => {
        for (const { sql } of known.slice(0, version)) into.exec(sql);
        into.pragma(`application_id = ${applicationId}`);
        into.pragma(`user_version = ${version}`);
        return carryTables(from, into, before);
      })();
      const isWhole = into.pragma('quick_check(1)', { simple: true }) === 'ok';
      return isWhole && [...carried.values()].some(({ saved }) => saved > 0) ? carried : undefined;
    } finally {
      into.close();
    }
  } finally {
    unlessDamaged(() => from.close());
  }
}

/** The version of a database of ours that has its shape still; undefined for anything else, which is not touched. */
const versionOf = (sql: Sqlite.Database, known: readonly Migration[]): number | undefined =>
  unlessDamaged(() => {
    const version = pragmaNumber(sql, 'user_version');
    if (pragmaNumber(sql, 'application_id') !== applicationId || version < 1 || version > known.length)
      return undefined;
    return lackingShape(sql, known.slice(0, version)).length === 0 ? version : undefined;
  });

/**
 * SQLite refuses a file that is shorter than its head says (SQLite file format, 1.3: page size at byte 16, pages at byte 28).
 * Filled up with zeros it is read, and the pages that are missing are damaged ones.
 */
function fillUp(file: string): void {
  const head = Buffer.alloc(100);
  const opened = openSync(file, 'r');
  try {
    readSync(opened, head, 0, head.length, 0);
  } finally {
    closeSync(opened);
  }
  const told = head.readUInt16BE(16);
  const page = told === 1 ? 65_536 : told;
  const size = statSync(file).size;
  const wanted = head.readUInt32BE(28) * page;
  // A head that is damaged itself may promise anything.
  if (wanted > size && wanted < 64 * size + 1_048_576) truncateSync(file, wanted);
}

function copyWithLog(file: string, to: string): void {
  for (const ending of ['', '-wal']) {
    if (!existsSync(`${file}${ending}`)) continue;
    copyFileSync(`${file}${ending}`, `${to}${ending}`);
    onDisk(`${to}${ending}`);
  }
}

/** The old log goes first: beside the new file SQLite would take it for its own. What was in it is kept and taken over. */
function putInPlace(file: string, kept: string): void {
  const saved = join(kept, 'saved.db');
  onDisk(saved);
  for (const ending of ['-wal', '-shm']) rmSync(`${file}${ending}`, { force: true });
  renameSync(saved, file);
}

function onDisk(file: string): void {
  const opened = openSync(file, 'r+');
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}

function salvaged(file: string, kept: string, carried: ReadonlyMap<string, Carried>): DatabaseProblem {
  const words = (which: 'saved' | 'lost'): string =>
    [...carried].flatMap(([table, of]) => (of[which] > 0 ? [`${of[which]} ${calledBy(table)}`] : [])).join(', ');
  const lost = words('lost');
  const unplaced = [...carried.values()].some((of) => of.unplaced === true);
  const missing = lost === '' ? 'Every row could be read' : `Lost, at most: ${lost}${unplaced ? whose : ''}`;
  return {
    kind: 'records-salvaged',
    sentence: `${file} was damaged. What could be read was taken into a new file: ${words('saved')}. ${missing}.`,
    remedy: `The damaged file is kept in ${kept}. Compare with a backup before you go on, and check the disk.`,
  };
}

const whose = '; which builds lack entries could not be found out, so each may';

const calledBy = (table: string): string => counted[table] ?? `rows of ${table.replaceAll('_', ' ')}`;
