import { type Entry, entrySchema, entryVersion, type Notebook } from '../../shared/job/records/notebook.ts';
import { ok, type Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { type NotebookReader, notebookReader, type ReadNotebook } from './notebookRows.ts';
import { type Skip, writable } from './recordRows.ts';
import { type SummaryWriter, summaryWriter } from './summaries.ts';

/** The notebooks of all builds. Entries are added and read; there is no way to change or remove one. */
export interface Notebooks {
  /** Undefined where there is no such build; a problem where one of its entries cannot be read. */
  read(build: string): Result<Notebook> | undefined;
  /**
   * Writes an entry and, with it, what the list of builds says of its build. Fails, with nothing written, when the entry could
   * not be read again or the disk refuses.
   */
  add(build: string, entry: Entry): Result<Entry>;
  /** Inside a write: entries taken in from another bench, each with the bench it is of where that is not this one. */
  takeIn(build: string, entries: readonly { readonly entry: Entry; readonly bench: string | null }[]): void;
  /** Makes the summary of a build anew from its notebook; inside a write. */
  summarise(build: string): void;
}

export function openNotebooks(database: Database, skip: Skip = () => undefined): Notebooks {
  const { sql, write } = database;
  const insert = sql.prepare<[string, string, number, string, string, string, string | null]>(
    'INSERT INTO notebook_entry (id, build, version, at, by, deed, bench) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const reader = notebookReader(database);
  const summaries = summaryWriter(database);
  const put = (build: string, { id, at, by, deed }: Entry, bench: string | null): number =>
    Number(insert.run(id, build, entryVersion, at, by, JSON.stringify(deed), bench).lastInsertRowid);
  return {
    read(build) {
      const read = reader.read(build);
      if (read === undefined) return undefined;
      if (read.ok) return ok(read.value.notebook);
      skip(`build ${build}`, read.problem);
      // Bent since it was summed up: from here on the list shows it among those that cannot be read.
      if (!sql.readonly && !sql.inTransaction)
        write(() => summaries.putProblem(build, reader.lastLine(build), read.problem));
      return read;
    },
    add(build, entry) {
      const checked = writable(entrySchema, entry, 'This entry');
      if (!checked.ok) return checked;
      let isThere = false;
      try {
        const written = write(() => {
          reader.wrote(build, checked.value, put(build, checked.value, null));
          summarise({ reader, summaries }, build);
          return checked.value;
        });
        isThere = written.ok;
        return written;
      } finally {
        if (!isThere) reader.forget(build);
      }
    },
    takeIn(build, entries) {
      reader.forget(build);
      for (const { entry, bench } of entries) put(build, entry, bench);
      summarise({ reader, summaries }, build);
    },
    summarise: (build) => summarise({ reader, summaries }, build),
  };
}

interface Summing {
  readonly reader: NotebookReader;
  readonly summaries: SummaryWriter;
}

function summarise({ reader, summaries }: Summing, build: string): void {
  const read = reader.read(build);
  if (read === undefined) summaries.drop(build);
  else if (read.ok) summed(summaries, read.value);
  else summaries.putProblem(build, reader.lastLine(build), read.problem);
}

/** A defect in telling what a build is must not cost the entry: the list then lacks it until a later version reads it again. */
function summed(summaries: SummaryWriter, { notebook, last }: ReadNotebook): void {
  try {
    summaries.put(notebook, last);
  } catch (error) {
    if (!(error instanceof Error) || 'code' in error) throw error;
    summaries.putProblem(notebook.id, last, {
      kind: 'unreadable',
      sentence: `The build cannot be told in a line: ${error.message}.`,
      remedy: 'Save a report in Settings. Nothing of the build is lost.',
    });
  }
}
