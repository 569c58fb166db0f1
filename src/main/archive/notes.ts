import { chmodSync, closeSync, existsSync, openSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { Problem } from '../../shared/basics/result.ts';

/** How far the notebooks of this data folder are in an archive. */
export interface Cursor {
  /** Everything up to this line of the notebooks is there, or was refused and stands among the refusals. */
  readonly line: number;
  /** The entry of that line, by which it is seen whether these are still the same notebooks. */
  readonly entry: string;
  /** The last entry that was new to the archive. */
  readonly own: string;
  /** When the archive gave its word for the last time, by this bench's clock; it is shown, and nothing rests on it. */
  readonly at: string;
}

/** Something the archive has otherwise than this bench, under the same name. It is kept there and here as it is. */
export interface Refusal {
  readonly id: string;
  readonly build: string;
  readonly problem: Problem;
}

/** Another bench that wrote in a build of this one: its last entry, and when the archive had it. */
export interface Beside {
  readonly build: string;
  readonly bench: string;
  readonly entry: string;
  readonly at: string;
}

/** What a data folder notes about archives. It can be lost: then everything is asked for again. */
export interface Notes {
  read(archive: string): Cursor;
  /** Takes the archive's word: the cursor goes on, with what was refused and who else wrote, in one transaction. */
  take(archive: string, word: Word): void;
  /** Begins anew with an archive: all of it is asked for, and what is there is not sent again. */
  beginAnew(archive: string): void;
  /** What was refused, to be told: the first hundred. */
  refusals(archive: string): readonly Refusal[];
  /** The ids of all that was refused. */
  refused(archive: string): ReadonlySet<string>;
  /** The last entry of each other bench in each build that was looked at, the newest first. */
  beside(archive: string): readonly Beside[];
  noteBeside(archive: string, beside: readonly Beside[]): void;
  /** The archive that was heard of last. */
  latest(): string | undefined;
  close(): void;
}

interface Word {
  readonly cursor: Cursor;
  readonly refused: readonly Refusal[];
  readonly beside: readonly Beside[];
}

const notesFile = (folder: string): string => join(folder, 'axlewright.archive.db');

const nothingSent: Cursor = { line: 0, entry: '', own: '', at: '' };
const mostTold = 100;

/**
 * Opens the notes beside the records, in a file of their own: taking the archive's word never makes the journal wait, and a
 * backup brought back does not believe what was sent by another.
 */
export function openNotes(folder: string): Notes {
  const file = notesFile(folder);
  if (!existsSync(file)) closeSync(openSync(file, 'a', 0o600));
  chmodSync(file, 0o600);
  const sql = new Sqlite(file, { timeout: 5000 });
  sql.pragma('journal_mode = WAL');
  sql.pragma('synchronous = FULL');
  sql.exec(tables);
  return notesIn(sql);
}

const tables = `
  CREATE TABLE IF NOT EXISTS cursor (
    archive TEXT PRIMARY KEY, line INTEGER NOT NULL, entry TEXT NOT NULL, own TEXT NOT NULL, at TEXT NOT NULL, turn INTEGER NOT NULL
  ) STRICT;
  CREATE TABLE IF NOT EXISTS refusal (
    archive TEXT NOT NULL, id TEXT NOT NULL, build TEXT NOT NULL, problem TEXT NOT NULL, PRIMARY KEY (archive, id)
  ) STRICT, WITHOUT ROWID;
  DROP TABLE IF EXISTS beside;
  CREATE TABLE IF NOT EXISTS written_beside (
    archive TEXT NOT NULL, build TEXT NOT NULL, bench TEXT NOT NULL, entry TEXT NOT NULL, at TEXT NOT NULL,
    PRIMARY KEY (archive, build, bench)
  ) STRICT, WITHOUT ROWID;`;

function notesIn(sql: Sqlite.Database): Notes {
  const read = sql.prepare<[string], Cursor>('SELECT line, entry, own, at FROM cursor WHERE archive = ?');
  const put = sql.prepare<[string, number, string, string, string]>(`
    INSERT INTO cursor (archive, line, entry, own, at, turn) VALUES (?, ?, ?, ?, ?, (SELECT coalesce(max(turn), 0) + 1 FROM cursor))
    ON CONFLICT (archive) DO UPDATE SET line = excluded.line, entry = excluded.entry, own = excluded.own, at = excluded.at,
      turn = excluded.turn`);
  const refuse = sql.prepare<[string, string, string, string]>(
    'INSERT INTO refusal (archive, id, build, problem) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING',
  );
  const note = sql.prepare<[string, string, string, string, string]>(`
    INSERT INTO written_beside (archive, build, bench, entry, at) VALUES (?, ?, ?, ?, ?)
    ON CONFLICT DO UPDATE SET entry = excluded.entry, at = excluded.at`);
  const noteBeside = (archive: string, beside: readonly Beside[]): void => {
    for (const { build, bench, entry, at } of beside) note.run(archive, build, bench, entry, at);
  };
  const refusals = sql.prepare<[string, number], { id: string; build: string; problem: string }>(
    'SELECT id, build, problem FROM refusal WHERE archive = ? ORDER BY build, id LIMIT ?',
  );
  const refused = sql.prepare<[string], string>('SELECT id FROM refusal WHERE archive = ?').pluck();
  const beside = sql.prepare<[string], Beside>(
    'SELECT build, bench, entry, at FROM written_beside WHERE archive = ? ORDER BY at DESC',
  );
  const latest = sql.prepare<[], string>('SELECT archive FROM cursor ORDER BY turn DESC LIMIT 1').pluck();
  return {
    read: (archive) => read.get(archive) ?? nothingSent,
    take: sql.transaction((archive: string, word: Word) => {
      const { line, entry, own, at } = word.cursor;
      put.run(archive, line, entry, own, at);
      for (const { id, build, problem } of word.refused) refuse.run(archive, id, build, JSON.stringify(problem));
      noteBeside(archive, word.beside);
    }),
    beginAnew: sql.transaction((archive: string) => {
      put.run(archive, 0, '', '', '');
      sql.prepare('DELETE FROM refusal WHERE archive = ?').run(archive);
    }),
    refusals: (archive) =>
      refusals
        .all(archive, mostTold)
        .map(({ problem, ...one }) => ({ ...one, problem: JSON.parse(problem) as Problem })),
    refused: (archive) => new Set(refused.all(archive)),
    beside: (archive) => beside.all(archive),
    noteBeside: sql.transaction(noteBeside),
    latest: () => latest.get(),
    close: () => void sql.close(),
  };
}
