import type { Migration } from '../migration.ts';

/**
 * The records. A build is its notebook: entries in order, only ever added. A gauge's record has revisions,
 * because a certificate of last year rests on the calibration of last year.
 */
export const recordTables: Migration = {
  name: 'notebooks, gauges and measurements without a build',
  sql: `
    CREATE TABLE notebook_entry (
      line    INTEGER PRIMARY KEY,
      id      TEXT NOT NULL UNIQUE,
      build   TEXT NOT NULL,
      version INTEGER NOT NULL,
      at      TEXT NOT NULL,
      by      TEXT NOT NULL,
      deed    TEXT NOT NULL CHECK (json_valid(deed))
    ) STRICT;
    CREATE INDEX notebook_entry_build ON notebook_entry (build, line);
    CREATE TABLE gauge_revision (
      line   INTEGER PRIMARY KEY,
      id     TEXT NOT NULL,
      at     TEXT NOT NULL,
      record TEXT NOT NULL CHECK (json_valid(record))
    ) STRICT;
    CREATE INDEX gauge_revision_id ON gauge_revision (id, line);
    CREATE TABLE loose_measurement (
      id      TEXT PRIMARY KEY,
      at      TEXT NOT NULL,
      record  TEXT NOT NULL CHECK (json_valid(record)),
      kept_in TEXT
    ) STRICT;
  `,
};
