import type { Migration } from '../migration.ts';

/** The shop's shims at hand, each state of the drawer a line: a count that was wrong can be looked up again. */
export const drawerTables: Migration = {
  name: 'the drawer of shims',
  sql: `
    CREATE TABLE drawer_revision (
      line   INTEGER PRIMARY KEY,
      at     TEXT NOT NULL,
      record TEXT NOT NULL CHECK (json_valid(record))
    ) STRICT;
  `,
};
