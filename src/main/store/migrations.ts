import type { Migration } from './migration.ts';
import { benchTables } from './migrations/benchTables.ts';
import { blockTables } from './migrations/blockTables.ts';
import { countsIndex } from './migrations/countsIndex.ts';
import { drawerTables } from './migrations/drawerTables.ts';
import { gaugeCheckTable } from './migrations/gaugeCheckTable.ts';
import { journalTables } from './migrations/journalTables.ts';
import { photoTables } from './migrations/photoTables.ts';
import { recordTables } from './migrations/recordTables.ts';
import { settingTable } from './migrations/settingTable.ts';
import { summaryTables } from './migrations/summaryTables.ts';
import { unfinishedTable } from './migrations/unfinishedTable.ts';

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
  settingTable,
  unfinishedTable,
  benchTables,
  summaryTables,
  blockTables,
  countsIndex,
];
