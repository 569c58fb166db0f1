import type { Migration } from '../migration.ts';

/**
 * Who wrote and read what: this bench and every other one whose builds were taken in, each with its names and keys as they
 * became known; for an entry taken in, the bench that wrote it; and the readings of other benches, stretch by stretch, as the
 * lines of their file (deflated), because their row numbers mean nothing in this journal.
 */
export const benchTables: Migration = {
  name: 'benches, and what was taken in from others',
  sql: `
    CREATE TABLE bench (
      line INTEGER PRIMARY KEY,
      id   TEXT NOT NULL,
      own  INTEGER NOT NULL CHECK (own IN (0, 1)),
      name TEXT NOT NULL,
      key  TEXT NOT NULL,
      at   TEXT NOT NULL
    ) STRICT;
    ALTER TABLE notebook_entry ADD COLUMN bench TEXT;
    CREATE TABLE foreign_stretch (
      bench    TEXT NOT NULL,
      gauge    TEXT NOT NULL,
      from_seq INTEGER NOT NULL,
      to_seq   INTEGER NOT NULL,
      rows     INTEGER NOT NULL,
      sha256   TEXT NOT NULL,
      lines    BLOB NOT NULL,
      PRIMARY KEY (bench, gauge, from_seq, to_seq)
    ) STRICT, WITHOUT ROWID;
  `,
};
