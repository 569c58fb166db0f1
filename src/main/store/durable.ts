import type Sqlite from 'better-sqlite3';
import { z } from 'zod';
import { databaseProblem } from './databaseProblem.ts';

/** Write-ahead log and a sync on every commit: what was acknowledged survives the end of the process and of power. */
export function makeDurable(sql: Sqlite.Database): void {
  sql.pragma('journal_mode = WAL');
  sql.pragma('synchronous = FULL');
  // Moved into the file often and a little at a time: every 1,000 pages, as SQLite does by itself, readings were held up
  // by 14 to 30 ms each time; at 256 pages by 5 (measured by commits of four rows, 110 a second).
  sql.pragma('wal_autocheckpoint = 256');
  sql.pragma('foreign_keys = ON');
}

const movedSchema = z.tuple([z.object({ busy: z.int() })]);

/** The journal's thread moves its own share now and then, which takes a few milliseconds. */
const mostTries = 20;
const triedAgainAfter_ms = 2;
const never = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));

/**
 * What was committed goes into the file itself at once: a session that lay in the write-ahead log alone was lost with that
 * log. Where the disk is too full for it, it is safe in the log, and nothing is called refused that was written.
 */
export function intoTheFile(sql: Sqlite.Database): void {
  try {
    for (let tries = 0; tries < mostTries; tries += 1) {
      const [{ busy }] = movedSchema.parse(sql.pragma('wal_checkpoint(PASSIVE)'));
      if (busy === 0) return;
      Atomics.wait(never, 0, 0, triedAgainAfter_ms);
    }
  } catch (error) {
    databaseProblem(error, sql.name);
  }
}
