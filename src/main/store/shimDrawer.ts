import { type ShimDrawer, shimDrawerSchema } from '../../shared/job/records/drawer.ts';
import { ok, type Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, writable } from './recordRows.ts';

/** The shims at hand. Saving writes a new revision; the earlier ones stay. */
export interface ShimDrawerStore {
  read(): Result<ShimDrawer>;
  save(drawer: ShimDrawer, at: string): Result<ShimDrawer>;
}

export function openShimDrawer({ sql, write }: Database): ShimDrawerStore {
  const read = sql.prepare<[], { record: string }>('SELECT record FROM drawer_revision ORDER BY line DESC LIMIT 1');
  const save = sql.prepare<[string, string]>('INSERT INTO drawer_revision (at, record) VALUES (?, ?)');
  return {
    read: () => {
      const row = read.get();
      return row === undefined
        ? ok({ sizes: [] })
        : readable(shimDrawerSchema, () => JSON.parse(row.record), 'The drawer of shims');
    },
    save(drawer, at) {
      const checked = writable(shimDrawerSchema, drawer, 'The drawer');
      if (!checked.ok) return checked;
      return write(() => {
        save.run(at, JSON.stringify(checked.value));
        return checked.value;
      });
    },
  };
}
