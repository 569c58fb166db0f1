import type Sqlite from 'better-sqlite3';

/** Looks at every page of a database, log included: `ok`, or the first thing that is wrong in SQLite's words. */
export const pagesOf = (sql: Sqlite.Database): string => String(sql.pragma('quick_check(1)', { simple: true }));
