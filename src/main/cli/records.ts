import { homedir } from 'node:os';
import { join } from 'node:path';
import { existsSync } from 'node:fs';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { systemClock } from '../clock.ts';
import { dataFolder } from '../hosts/launcher/desktop.ts';
import { type Database, databaseName, openDatabase } from '../store/database.ts';
import { openNotebooks } from '../store/notebooks.ts';
import type { Given } from './verb.ts';

/** The folder of the records: --data, or the place where the bench keeps them. */
export const folderOf = (given: Given): string =>
  given.text('data') ?? dataFolder(process.platform, process.env, homedir());

/** Records as a reader sees them, beside a running bench if there is one. */
export interface Records {
  readonly database: Database;
  /** The build written in last first. */
  readonly notebooks: readonly Notebook[];
  readonly close: () => void;
}

/** Opens the records of a folder for reading; nothing is made or changed there. */
export function openRecords(folder: string): Result<Records> {
  if (!existsSync(join(folder, databaseName))) {
    return fail({
      kind: 'no-records',
      field: '--data',
      sentence: `There are no records in ${folder}.`,
      remedy: 'Name the folder with --data, or start the bench once.',
    });
  }
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return database;
  const stored = openNotebooks(database.value);
  return ok({
    database: database.value,
    notebooks: stored.ids().flatMap((id) => stored.read(id) ?? []),
    close: database.value.close,
  });
}
