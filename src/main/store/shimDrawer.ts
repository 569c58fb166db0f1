import { type ShimDrawer, shimDrawerSchema } from '../../shared/job/records/drawer.ts';
import type { Database } from './database.ts';

/** The shims at hand. Saving writes a new revision; the earlier ones stay. */
export interface ShimDrawerStore {
  read(): ShimDrawer;
  save(drawer: ShimDrawer, at: string): void;
}

export function openShimDrawer(database: Database): ShimDrawerStore {
  const { sql } = database;
  const read = sql.prepare<[], { record: string }>('SELECT record FROM drawer_revision ORDER BY line DESC LIMIT 1');
  const save = sql.prepare<[string, string]>('INSERT INTO drawer_revision (at, record) VALUES (?, ?)');
  return {
    read: () => {
      const row = read.get();
      return row === undefined ? { sizes: [] } : shimDrawerSchema.parse(JSON.parse(row.record));
    },
    save: (drawer, at) => void save.run(at, JSON.stringify(drawer)),
  };
}
