import { type Entry, standing } from '../../shared/job/records/notebook.ts';
import type { Database } from './database.ts';
import { codeOf } from './databaseProblem.ts';

type LineOf = (entry: string) => number | undefined;

/** The line of the last certificate that stands: lines rise, clocks are set back. */
export function certifiedLine(entries: readonly Entry[], lineOf: LineOf): number | null {
  const last = standing(entries).findLast(({ deed }) => deed.kind === 'certified');
  return (last === undefined ? undefined : lineOf(last.id)) ?? null;
}

interface Sheet {
  readonly line: number;
  readonly record: string;
}

/** The spec sheets entered in a build that stand, the newest of each name. */
export function sheetsIn(entries: readonly Entry[], lineOf: LineOf): ReadonlyMap<string, Sheet> {
  const sheets = new Map<string, Sheet>();
  for (const { id, deed } of standing(entries)) {
    if (deed.kind !== 'limits-set') continue;
    sheets.set(deed.specSheet.name, { line: lineOf(id) ?? 0, record: JSON.stringify(deed.specSheet) });
  }
  return sheets;
}

export function sheetIndex(sql: Database['sql']) {
  const known = sql.prepare<[string], { name: string; line: number }>(
    'SELECT name, line FROM build_sheet WHERE build = ?',
  );
  const clear = sql.prepare<[string]>('DELETE FROM build_sheet WHERE build = ?');
  const add = sql.prepare<[string, string, number, string]>(
    'INSERT INTO build_sheet (build, name, line, record) VALUES (?, ?, ?, ?)',
  );
  return {
    put(build: string, sheets: ReadonlyMap<string, Sheet>): void {
      const before = known.all(build);
      if (before.length === sheets.size && before.every(({ name, line }) => sheets.get(name)?.line === line)) return;
      clear.run(build);
      for (const [name, { line, record }] of sheets) add.run(build, name, line, record);
    },
  };
}

/**
 * The index of words has no columns to be asked for: it is kept beside the words themselves, by the number of the build. Where
 * the index is damaged it is emptied, and everything is to be summed up again: an entry is not refused for its sake.
 */
export function wordIndex(sql: Database['sql']) {
  const of = sql.prepare<[string], string>('SELECT words FROM build_summary WHERE build = ?').pluck();
  const number = sql.prepare<[string], number>('SELECT number FROM build_summary WHERE build = ?').pluck();
  const put = sql.prepare<[number, string]>('INSERT OR REPLACE INTO build_words (rowid, words) VALUES (?, ?)');
  // Whoever begins a transaction inside another has the index written first, and not with everything else at the end.
  const writeNow = sql.transaction(() => undefined);
  return {
    of: (build: string): string | undefined => of.get(build),
    put(build: string, words: string): void {
      try {
        put.run(number.get(build) ?? 0, words);
        writeNow();
      } catch (error) {
        if (!isDamagedIndex(error)) throw error;
        sql.exec("INSERT INTO build_words (build_words) VALUES ('delete-all')");
        sql.exec('UPDATE build_summary SET version = 0');
      }
    },
  };
}

/** What SQLite says of an index of words that contradicts itself (FTS5 keeps it in tables no page check looks into); pages damaged themselves refuse the next statement too. */
export const isDamagedIndex = (error: unknown): boolean => codeOf(error).startsWith('SQLITE_CORRUPT');
