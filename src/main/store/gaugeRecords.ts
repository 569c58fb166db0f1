import { type Gauge, gaugeSchema } from '../../shared/job/records/gauge.ts';
import type { Database } from './database.ts';

/** The shop's gauges. Saving writes a new revision; the earlier ones stay. */
export interface GaugeRecords {
  list(): readonly Gauge[];
  read(id: string): Gauge | undefined;
  save(gauge: Gauge, at: string): void;
}

export function openGaugeRecords(database: Database): GaugeRecords {
  const { sql } = database;
  // In the order in which they were first entered, so that a list on the screen stands still.
  const list = sql.prepare<[], { record: string }>(`
    SELECT record FROM gauge_revision AS one
    WHERE line = (SELECT max(line) FROM gauge_revision WHERE id = one.id)
    ORDER BY (SELECT min(line) FROM gauge_revision WHERE id = one.id)`);
  const read = sql.prepare<[string], { record: string }>(
    'SELECT record FROM gauge_revision WHERE id = ? ORDER BY line DESC LIMIT 1',
  );
  const save = sql.prepare<[string, string, string]>('INSERT INTO gauge_revision (id, at, record) VALUES (?, ?, ?)');
  const gaugeOf = (row: { record: string }): Gauge => gaugeSchema.parse(JSON.parse(row.record));
  return {
    list: () => list.all().map(gaugeOf),
    read: (id) => {
      const row = read.get(id);
      return row === undefined ? undefined : gaugeOf(row);
    },
    save: (gauge, at) => void save.run(gauge.id, at, JSON.stringify(gauge)),
  };
}
