import { homedir } from 'node:os';
import { join } from 'node:path';
import { existsSync } from 'node:fs';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { systemClock } from '../clock.ts';
import { dataFolder } from '../hosts/launcher/desktop.ts';
import { type Database, databaseName, openDatabase } from '../store/database.ts';
import { recordsMissing } from '../store/opening.ts';
import { openNotebooks } from '../store/notebooks.ts';
import type { Given } from './verb.ts';

/** The folder of the records: --data, or the place where the bench keeps them. */
export const folderOf = (given: Given): string =>
  given.text('data') ?? dataFolder(process.platform, process.env, homedir());

/** A build that cannot be read, with the reason. */
interface UnreadableBuild {
  readonly id: string;
  readonly problem: Problem;
}

/** Records as a reader sees them, beside a running bench if there is one. */
export interface Records {
  readonly database: Database;
  /** The build written in last first. */
  readonly notebooks: readonly Notebook[];
  /** They stand in nobody's way: the others are read all the same. */
  readonly unreadable: readonly UnreadableBuild[];
  readonly close: () => void;
}

/** Opens the records of a folder for reading; nothing is made or changed there. */
export function openRecords(folder: string): Result<Records> {
  const file = join(folder, databaseName);
  if (!existsSync(file)) return fail(recordsMissing(folder, file) ?? noRecords(folder));
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return database;
  const stored = openNotebooks(database.value);
  const notebooks: Notebook[] = [];
  const unreadable: UnreadableBuild[] = [];
  for (const id of stored.ids()) {
    const notebook = stored.read(id);
    if (notebook?.ok === true) notebooks.push(notebook.value);
    else if (notebook !== undefined) unreadable.push({ id, problem: notebook.problem });
  }
  return ok({ database: database.value, notebooks, unreadable, close: database.value.close });
}

const noRecords = (folder: string): Problem => ({
  kind: 'no-records',
  field: '--data',
  sentence: `There are no records in ${folder}.`,
  remedy: 'Name the folder with --data, or start the bench once.',
});
