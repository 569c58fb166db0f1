import type { Notebook } from '../../shared/job/records/notebook.ts';
import { type Entry, entrySchema, entryVersion } from '../../shared/job/records/notebook.ts';
import type { Database } from './database.ts';

interface Row {
  readonly id: string;
  readonly version: number;
  readonly at: string;
  readonly by: string;
  readonly deed: string;
}

/** The notebooks of all builds. Entries are added and read; there is no way to change or remove one. */
export interface Notebooks {
  /** Ids of all builds, the one written in last first. */
  ids(): readonly string[];
  read(build: string): Notebook | undefined;
  add(build: string, entry: Entry): void;
}

export function openNotebooks(database: Database): Notebooks {
  const { sql } = database;
  const ids = sql.prepare<[], { build: string }>(
    'SELECT build FROM notebook_entry GROUP BY build ORDER BY max(line) DESC',
  );
  const read = sql.prepare<[string], Row>(
    'SELECT id, version, at, by, deed FROM notebook_entry WHERE build = ? ORDER BY line',
  );
  const add = sql.prepare<[string, string, number, string, string, string]>(
    'INSERT INTO notebook_entry (id, build, version, at, by, deed) VALUES (?, ?, ?, ?, ?, ?)',
  );
  return {
    ids: () => ids.all().map((row) => row.build),
    read(build) {
      const entries = read.all(build).map(entryOf);
      return entries.length === 0 ? undefined : { id: build, entries };
    },
    add: (build, entry) => void add.run(entry.id, build, entryVersion, entry.at, entry.by, JSON.stringify(entry.deed)),
  };
}

/** Rows are checked on the way in from disk too: a file can be edited by other hands. */
const entryOf = (row: Row): Entry => entrySchema.parse({ ...row, deed: JSON.parse(row.deed) });
