import { homedir } from 'node:os';
import { join } from 'node:path';
import { existsSync } from 'node:fs';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { systemClock } from '../clock.ts';
import { dataFolder } from '../hosts/launcher/desktop.ts';
import { type Database, databaseName, openDatabase } from '../store/database.ts';
import { recordsMissing } from '../store/opening.ts';
import { openNotebooks } from '../store/notebooks.ts';
import type { Stores } from '../bench/stores.ts';
import { openBuildList } from '../store/buildList.ts';
import type { Given } from './verb.ts';

/** The folder of the records: --data, or the place where the bench keeps them. */
export const folderOf = (given: Given): string =>
  given.text('data') ?? dataFolder(process.platform, process.env, homedir());

/** Records as a reader sees them, beside a running bench if there is one. */
export interface Records extends Pick<Stores, 'notebooks' | 'buildList'> {
  readonly database: Database;
  readonly close: () => void;
}

/** Opens the records of a folder for reading; nothing is made or changed there. */
export function openRecords(folder: string): Result<Records> {
  const file = join(folder, databaseName);
  if (!existsSync(file)) return fail(recordsMissing(folder, file) ?? noRecords(folder));
  const opened = openDatabase(folder, systemClock, { as: 'reader' });
  if (!opened.ok) return opened;
  const database = opened.value;
  return ok({
    database,
    notebooks: openNotebooks(database),
    buildList: openBuildList(database),
    close: database.close,
  });
}

export const noRecords = (folder: string): Problem => ({
  kind: 'no-records',
  field: '--data',
  sentence: `There are no records in ${folder}.`,
  remedy: 'Name the folder with --data, or start the bench once.',
});
