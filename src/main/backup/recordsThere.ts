import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { Problem } from '../../shared/basics/result.ts';
import { databaseName } from '../store/database.ts';
import { sizeOf } from '../store/fileSize.ts';

/** The tables in which the work of people stands. */
const worked = ['notebook_entry', 'loose_measurement', 'photo', 'drawer_revision', 'foreign_stretch'];

/** Why a folder's database is not put aside: somebody's work is in it, or it cannot be known that there is none. */
export function recordsIn(folder: string): Problem | undefined {
  const file = join(folder, databaseName);
  if (!existsSync(file)) return undefined;
  if (sizeOf(file) === 0 && sizeOf(`${file}-wal`) === 0) return undefined;
  try {
    const sql = new Sqlite(file, { readonly: true, fileMustExist: true });
    try {
      const tables = new Set(sql.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all());
      const full = worked.filter(
        (table) => tables.has(table) && sql.prepare(`SELECT 1 FROM ${table}`).get() !== undefined,
      );
      return tables.has('notebook_entry') && full.length === 0 ? undefined : recordsThere(file);
    } finally {
      sql.close();
    }
  } catch {
    return recordsThere(file);
  }
}

const recordsThere = (file: string): Problem => ({
  kind: 'records-there',
  field: '--data',
  sentence: `${file} has records in it, and a backup is never put over records. Nothing has been changed.`,
  remedy: 'Take a data folder that is empty or not there yet, or move this one away first.',
});
