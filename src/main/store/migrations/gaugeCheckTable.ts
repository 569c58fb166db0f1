import type { Migration } from '../migration.ts';

/** The checks of the gauges, in the order they were made; only added to. */
export const gaugeCheckTable: Migration = {
  name: 'daily checks of gauges',
  sql: `
    CREATE TABLE gauge_check (
      line   INTEGER PRIMARY KEY,
      gauge  TEXT NOT NULL,
      record TEXT NOT NULL
    ) STRICT;
    CREATE INDEX gauge_check_of ON gauge_check (gauge, line);
  `,
};
