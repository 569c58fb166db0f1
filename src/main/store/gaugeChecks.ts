import { type GaugeCheck, gaugeCheckSchema } from '../../shared/job/records/gaugeCheck.ts';
import type { Database } from './database.ts';

/** The checks of each gauge, newest first. */
export interface GaugeChecks {
  list(gauge: string): readonly GaugeCheck[];
  add(check: GaugeCheck): void;
}

export function openGaugeChecks({ sql }: Database): GaugeChecks {
  const list = sql.prepare<[string], { record: string }>(
    'SELECT record FROM gauge_check WHERE gauge = ? ORDER BY line DESC LIMIT 100',
  );
  const add = sql.prepare<[string, string]>('INSERT INTO gauge_check (gauge, record) VALUES (?, ?)');
  return {
    list: (gauge) => list.all(gauge).map(({ record }) => gaugeCheckSchema.parse(JSON.parse(record))),
    add: (check) => void add.run(check.gauge, JSON.stringify(check)),
  };
}
