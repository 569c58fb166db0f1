import type { Notebook } from '../../shared/contract/builds.ts';
import { type Deed, type Entry, entrySchema, entryVersion, standing } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, unreadable, writable } from './recordRows.ts';

interface Row {
  readonly line: number;
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
  /** The same, each with the number of its last line, which rises with every entry. */
  lastLines(): readonly { readonly build: string; readonly last: number }[];
  /** Undefined where there is no such build; a problem where one of its entries cannot be read. */
  read(build: string): Result<Notebook> | undefined;
  /** Fails, with nothing written, when the entry could not be read again or the disk refuses. */
  add(build: string, entry: Entry): Result<Entry>;
  /** Every entry of one kind, over all builds, the one written last first: by its line, because clocks are set back. */
  newest(kind: Deed['kind']): readonly { readonly build: string; readonly id: string }[];
}

export function openNotebooks({ sql, write }: Database, skip: Skip = () => undefined): Notebooks {
  const lastLines = sql.prepare<[], { build: string; last: number }>(
    'SELECT build, max(line) AS last FROM notebook_entry GROUP BY build ORDER BY max(line) DESC',
  );
  const read = sql.prepare<[string], Row>(
    'SELECT line, id, version, at, by, deed FROM notebook_entry WHERE build = ? ORDER BY line',
  );
  const add = sql.prepare<[string, string, number, string, string, string]>(
    'INSERT INTO notebook_entry (id, build, version, at, by, deed) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const newest = sql.prepare<[string], { build: string; id: string }>(
    "SELECT build, id FROM notebook_entry WHERE deed ->> '$.kind' = ? ORDER BY line DESC",
  );
  return {
    newest: (kind) => newest.all(kind),
    ids: () => lastLines.all().map((row) => row.build),
    lastLines: () => lastLines.all(),
    read(build) {
      const rows = read.all(build);
      if (rows.length === 0) return undefined;
      const notebook = notebookOf(build, rows);
      if (!notebook.ok) skip(`build ${build}`, notebook.problem);
      return notebook;
    },
    add(build, entry) {
      const checked = writable(entrySchema, entry, 'This entry');
      if (!checked.ok) return checked;
      const { id, at, by, deed } = checked.value;
      return write(() => {
        add.run(id, build, entryVersion, at, by, JSON.stringify(deed));
        return checked.value;
      });
    },
  };
}

/** A notebook is read whole or not at all: with an entry left out it would tell another story. */
function notebookOf(id: string, rows: readonly Row[]): Result<Notebook> {
  const entries: Entry[] = [];
  for (const [index, row] of rows.entries()) {
    const entry = entryOf(row, `Entry ${index + 1} of ${rows.length} of ${calledBy(rows)}`);
    if (!entry.ok) return entry;
    entries.push(entry.value);
  }
  if (standing(entries)[0]?.deed.kind === 'started') return ok({ id, entries });
  return fail(unreadable(`The notebook of ${calledBy(rows)}`, 'it does not begin with the start of a build'));
}

/** The title of a build whose notebook cannot be read, if its start can. */
function calledBy(rows: readonly Row[]): string {
  const titles = rows.flatMap((row) => {
    const entry = entryOf(row, '');
    return entry.ok && entry.value.deed.kind === 'started' ? [entry.value.deed.title] : [];
  });
  return titles[0] === undefined ? 'a build without a title' : `the build "${titles[0]}"`;
}

/** Rows are checked on the way in from disk too: a file can be edited by other hands. */
function entryOf({ id, version, at, by, deed }: Row, what: string): Result<Entry> {
  if (version > entryVersion) return fail(unreadable(what, `a later version of the bench wrote it (${version})`));
  return readable(entrySchema, () => ({ id, version, at, by, deed: JSON.parse(deed) as unknown }), what);
}
