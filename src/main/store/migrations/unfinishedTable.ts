import type { Migration } from '../migration.ts';

/** How far each measurement has come that is not recorded yet: notes that are written over, not records. */
export const unfinishedTable: Migration = {
  name: 'measurements under way',
  sql: `
    CREATE TABLE unfinished (
      assembly TEXT NOT NULL,
      check_id TEXT NOT NULL,
      record   TEXT NOT NULL CHECK (json_valid(record)),
      PRIMARY KEY (assembly, check_id)
    ) STRICT;
  `,
};
