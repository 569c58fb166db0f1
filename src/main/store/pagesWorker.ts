// A thread of its own for looking at every page of a database: it takes seconds in which the bench goes on journaling.
import { parentPort, workerData } from 'node:worker_threads';
import Sqlite from 'better-sqlite3';
import { z } from 'zod';
import { codeOf } from './databaseProblem.ts';
import { pagesOf } from './pages.ts';

/** Damage that keeps the check itself from ending is damage; a file that cannot be opened now says nothing of its pages. */
function found(): string {
  const { file } = z.strictObject({ file: z.string() }).parse(workerData);
  try {
    const sql = new Sqlite(file, { readonly: true, fileMustExist: true });
    try {
      return pagesOf(sql);
    } finally {
      sql.close();
    }
  } catch (error) {
    return codeOf(error).startsWith('SQLITE_CORRUPT') ? String(error) : 'ok';
  }
}

parentPort?.postMessage(found());
