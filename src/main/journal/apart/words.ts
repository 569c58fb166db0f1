import { MessagePort } from 'node:worker_threads';
import { z } from 'zod';
import type { JournalRow } from '../entry.ts';

/** What the thread that writes rows is told at its beginning. */
export const begunSchema = z.strictObject({
  /** The database file, open in the bench already. */
  file: z.string(),
  port: z.instanceof(MessagePort),
  /** One number, raised by one with each word the thread has said: whoever cannot wait for an event waits for it. */
  said: z.instanceof(SharedArrayBuffer),
});

/** Rows to be written, all of them or none; or the end. */
export type WordToThread = readonly JournalRow[] | 'end';

/** What the thread says: that the database is open, what came of the rows it was given last, and that it has closed the database. */
export type WordFromThread = { readonly kind: 'open' | 'written' | 'closed' } | Refused;

/** Why rows were not written: the word of SQLite or of the system, and the whole sentence. */
export interface Refused {
  readonly kind: 'refused';
  readonly code: string;
  readonly message: string;
}
