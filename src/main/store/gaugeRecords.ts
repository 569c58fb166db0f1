import { type Gauge, gaugeSchema } from '../../shared/job/records/gauge.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, writable } from './recordRows.ts';

/** The shop's gauges. Saving writes a new revision; the earlier ones stay. */
export interface GaugeRecords {
  /** Those whose last revision can be read. */
  list(): readonly Gauge[];
  read(id: string): Gauge | undefined;
  save(gauge: Gauge, at: string): Result<Gauge>;
}

interface Row {
  readonly id: string;
  readonly record: string;
}

export function openGaugeRecords({ sql, write }: Database, skip: Skip): GaugeRecords {
  // In the order in which they were first entered, so that a list on the screen stands still.
  const list = sql.prepare<[], Row>(`
    SELECT id, record FROM gauge_revision AS one
    WHERE line = (SELECT max(line) FROM gauge_revision WHERE id = one.id)
    ORDER BY (SELECT min(line) FROM gauge_revision WHERE id = one.id)`);
  const read = sql.prepare<[string], Row>(
    'SELECT id, record FROM gauge_revision WHERE id = ? ORDER BY line DESC LIMIT 1',
  );
  const save = sql.prepare<[string, string, string]>('INSERT INTO gauge_revision (id, at, record) VALUES (?, ?, ?)');
  // An earlier revision that can be read does not stand in: its calibration may be another.
  const gaugeOf = ({ id, record }: Row): Gauge | undefined => {
    const gauge = readable(gaugeSchema, () => JSON.parse(record), `The record of gauge ${id}`);
    if (gauge.ok) return gauge.value;
    skip(`gauge ${id}`, gauge.problem);
    return undefined;
  };
  return {
    list: () => list.all().flatMap((row) => gaugeOf(row) ?? []),
    read: (id) => {
      const row = read.get(id);
      return row === undefined ? undefined : gaugeOf(row);
    },
    save(gauge, at) {
      const checked = writable(gaugeSchema, gauge, `The record of ${gauge.label}`);
      if (!checked.ok) return checked;
      return write(() => {
        save.run(checked.value.id, at, JSON.stringify(checked.value));
        return checked.value;
      });
    },
  };
}
