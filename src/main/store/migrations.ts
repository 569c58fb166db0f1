import type { Migration } from './migration.ts';
import { drawerTables } from './migrations/drawer-tables.ts';
import { gaugeCheckTable } from './migrations/gauge-check-table.ts';
import { journalTables } from './migrations/journal-tables.ts';
import { photoTables } from './migrations/photo-tables.ts';
import { recordTables } from './migrations/record-tables.ts';

/**
 * Every change of the database's shape since the first day, oldest first. A database remembers how many
 * it has had (`user_version`), so an entry is never edited, moved or removed once it has shipped: add one.
 */
export const migrations: readonly Migration[] = [
  journalTables,
  recordTables,
  photoTables,
  drawerTables,
  gaugeCheckTable,
];
