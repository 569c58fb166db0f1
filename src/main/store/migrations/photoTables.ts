import type { Migration } from '../migration.ts';

/**
 * Photos of painted teeth, each once, known by the hash of its bytes; which build they belong to stands in the notebooks.
 * The watched folder is the last one chosen; of the files in it, those that have been dealt with.
 */
export const photoTables: Migration = {
  name: 'photos of painted teeth and the folder they come from',
  sql: `
    CREATE TABLE photo (
      sha256 TEXT PRIMARY KEY,
      at     TEXT NOT NULL,
      width  INTEGER NOT NULL,
      height INTEGER NOT NULL,
      jpeg   BLOB NOT NULL
    ) STRICT;
    CREATE TABLE photo_folder (
      line     INTEGER PRIMARY KEY,
      folder   TEXT,
      since_ms INTEGER NOT NULL
    ) STRICT;
    CREATE TABLE photo_arrival (
      folder      TEXT NOT NULL,
      file        TEXT NOT NULL,
      modified_ms REAL NOT NULL,
      became      TEXT NOT NULL,
      PRIMARY KEY (folder, file, modified_ms)
    ) STRICT, WITHOUT ROWID;
  `,
};
