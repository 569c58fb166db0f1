import type { Result } from '../../shared/basics/result.ts';
import { systemClock } from '../clock.ts';
import { openDatabase } from '../store/database.ts';
import { readIdentity } from '../store/identity.ts';
import { onWay, type Reach } from './connect.ts';
import { openNotes } from './notes.ts';
import { sendAll, type Sent, senderOf } from './send.ts';

/** Sends everything in the records of a folder that an archive does not have, beside whoever works there. */
export async function sendRecords(folder: string, reach: Reach): Promise<Result<Sent>> {
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return database;
  try {
    const identity = readIdentity(database.value);
    if (!identity.ok) return identity;
    const notes = openNotes(folder);
    try {
      const sender = senderOf(database.value, identity.value, notes);
      return await onWay(reach, (way, onTaken) => sendAll(way, sender, { onTaken }));
    } finally {
      notes.close();
    }
  } finally {
    database.value.close();
  }
}
