import type { Migration } from '../migration.ts';

/** What the shop has set at this bench, a line for each setting, so that a damaged one spoils no other. No record rests on them. */
export const settingTable: Migration = {
  name: 'settings of the bench',
  sql: `
    CREATE TABLE setting (
      name  TEXT PRIMARY KEY,
      at    TEXT NOT NULL,
      value TEXT NOT NULL
    ) STRICT;
  `,
};
