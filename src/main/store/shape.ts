import Sqlite from 'better-sqlite3';
import type { Migration } from './migration.ts';

/** Tables and indexes with their columns, as SQLite writes them down. */
type Shape = ReadonlyMap<string, string>;

/**
 * What a database lacks of the shape that so many migrations give: the names of tables and indexes that are not there or
 * are made otherwise. Another program, or a hand with an SQL tool, may have dropped one.
 */
export function lackingShape(sql: Sqlite.Database, migrations: readonly Migration[]): readonly string[] {
  const found = shapeOf(sql);
  return [...shapeAfter(migrations)].flatMap(([name, made]) => (found.get(name) === made ? [] : [name]));
}

const shapeOf = (sql: Sqlite.Database): Shape =>
  new Map(
    (sql.prepare('SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL').raw().all() as [string, string][])
      // Tables inside the index of words are made by SQLite itself, by each version as it likes.
      .filter(([name]) => !name.startsWith('build_words_'))
      .map(([name, made]) => [name, made.replaceAll(/\s+/gu, ' ')]),
  );

function shapeAfter(migrations: readonly Migration[]): Shape {
  const plain = new Sqlite(':memory:');
  try {
    for (const { sql } of migrations) plain.exec(sql);
    return shapeOf(plain);
  } finally {
    plain.close();
  }
}
