import { type Entry, entrySchema, entryVersion, type Notebook, standing } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, unreadable } from './recordRows.ts';

interface Row {
  readonly line: number;
  readonly id: string;
  readonly version: number;
  readonly at: string;
  readonly by: string;
  readonly deed: string;
}

/** A notebook with the number of its last line. */
export interface ReadNotebook {
  readonly notebook: Notebook;
  readonly last: number;
}

/** Notebooks as they lie in the database, each entry checked once: what was read is remembered, and only what came after it is read. */
export interface NotebookReader {
  /** Undefined where there is no such build; a problem where one of its entries cannot be read. */
  read(build: string): Result<ReadNotebook> | undefined;
  /** The number of the last line of a build, readable or not; 0 where there is none. */
  lastLine(build: string): number;
  /** Remembers what was just written, entry and line. */
  wrote(build: string, entry: Entry, line: number): void;
  /** Forgets a build of which something was written that may not be there: the transaction was rolled back. */
  forget(build: string): void;
}

/** Notebooks remembered: a shop has a handful on its stands, and each takes some hundred kB. */
const mostRemembered = 24;

export function notebookReader({ sql }: Pick<Database, 'sql'>): NotebookReader {
  const rowsAfter = sql.prepare<[string, number], Row>(
    'SELECT line, id, version, at, by, deed FROM notebook_entry WHERE build = ? AND line > ? ORDER BY line',
  );
  const lastLine = sql
    .prepare<[string], number>('SELECT coalesce(max(line), 0) FROM notebook_entry WHERE build = ?')
    .pluck();
  const between = sql.prepare<[string, number, number]>(
    'SELECT 1 FROM notebook_entry WHERE build = ? AND line > ? AND line < ? LIMIT 1',
  );
  const known = new Map<string, ReadNotebook>();
  const remember = (read: ReadNotebook): ReadNotebook => {
    known.delete(read.notebook.id);
    known.set(read.notebook.id, read);
    const [oldest] = known.keys();
    if (known.size > mostRemembered && oldest !== undefined) known.delete(oldest);
    return read;
  };
  const grown = (build: string, before: ReadNotebook | undefined, entries: readonly Entry[], last: number) =>
    remember({ notebook: { id: build, entries: [...(before?.notebook.entries ?? []), ...entries] }, last });
  return {
    read(build) {
      const before = known.get(build);
      const rows = rowsAfter.all(build, before?.last ?? -1);
      const last = rows.at(-1)?.line;
      if (last === undefined) return before === undefined ? undefined : ok(remember(before));
      const entries = entriesOf(rows, before);
      return entries.ok ? ok(grown(build, before, entries.value, last)) : entries;
    },
    lastLine: (build) => Number(lastLine.get(build)),
    wrote(build, entry, line) {
      const before = known.get(build);
      // Taken in by a thread meanwhile: what is remembered does not end where this one begins.
      if (before !== undefined && between.get(build, before.last, line) !== undefined) known.delete(build);
      else if (before !== undefined || entry.deed.kind === 'started') grown(build, before, [entry], line);
    },
    forget: (build) => void known.delete(build),
  };
}

/** A notebook is read whole or not at all: with an entry left out it would tell another story. */
function entriesOf(rows: readonly Row[], before: ReadNotebook | undefined): Result<readonly Entry[]> {
  const read = before?.notebook.entries ?? [];
  const all = read.length + rows.length;
  const called = (): string => calledBy(read, rows);
  const entries: Entry[] = [];
  for (const [index, row] of rows.entries()) {
    const entry = entryOf(row, () => `Entry ${read.length + index + 1} of ${all} of ${called()}`);
    if (!entry.ok) return entry;
    entries.push(entry.value);
  }
  if (before !== undefined || standing(entries)[0]?.deed.kind === 'started') return ok(entries);
  return fail(unreadable(`The notebook of ${called()}`, 'it does not begin with the start of a build'));
}

/** The title of a build whose notebook cannot be read, if its start can. */
function calledBy(read: readonly Entry[], rows: readonly Row[]): string {
  const started = [
    ...read,
    ...rows.flatMap((row) => {
      const entry = entryOf(row, () => '');
      return entry.ok ? [entry.value] : [];
    }),
  ].find(({ deed }) => deed.kind === 'started');
  return started?.deed.kind === 'started' ? `the build "${started.deed.title}"` : 'a build without a title';
}

/** Rows are checked on the way in from disk too: a file can be edited by other hands. */
function entryOf({ id, version, at, by, deed }: Row, what: () => string): Result<Entry> {
  if (version > entryVersion) return fail(unreadable(what(), `a later version of the bench wrote it (${version})`));
  return readable(entrySchema, () => ({ id, version, at, by, deed: JSON.parse(deed) as unknown }), what);
}
