import type { Database } from './database.ts';

/** Of the entries of a build that were taken in from other benches, which bench wrote each; this bench's own are not in it. */
export const originsOf = ({ sql }: Pick<Database, 'sql'>, build: string): ReadonlyMap<string, string> =>
  new Map(
    sql
      .prepare<[string], [string, string]>(
        'SELECT id, bench FROM notebook_entry WHERE build = ? AND bench IS NOT NULL ORDER BY line',
      )
      .raw()
      .all(build),
  );
