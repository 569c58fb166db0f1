import { type GaugeCheck, gaugeCheckSchema } from '../../shared/job/records/gaugeCheck.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, writable } from './recordRows.ts';

/** The checks of each gauge, newest first. */
export interface GaugeChecks {
  /** Those that can be read. */
  list(gauge: string): readonly GaugeCheck[];
  /** The last one of the gauge, if it can be read. */
  last(gauge: string): GaugeCheck | undefined;
  add(check: GaugeCheck): Result<GaugeCheck>;
}

interface Row {
  readonly line: number;
  readonly record: string;
}

export function openGaugeChecks({ sql, write }: Database, skip: Skip): GaugeChecks {
  const list = sql.prepare<[string], Row>(
    'SELECT line, record FROM gauge_check WHERE gauge = ? ORDER BY line DESC LIMIT 100',
  );
  const add = sql.prepare<[string, string]>('INSERT INTO gauge_check (gauge, record) VALUES (?, ?)');
  const lastOf = sql.prepare<[string], Row>(
    'SELECT line, record FROM gauge_check WHERE gauge = ? ORDER BY line DESC LIMIT 1',
  );
  const checkOf = ({ line, record }: Row): readonly GaugeCheck[] => {
    const check = readable(gaugeCheckSchema, () => JSON.parse(record), 'A check of a gauge');
    if (check.ok) return [check.value];
    skip(`gauge check ${line}`, check.problem);
    return [];
  };
  return {
    list: (gauge) => list.all(gauge).flatMap(checkOf),
    last: (gauge) => lastOf.all(gauge).flatMap(checkOf)[0],
    add(check) {
      const checked = writable(gaugeCheckSchema, check, 'This check');
      if (!checked.ok) return checked;
      return write(() => {
        add.run(checked.value.gauge, JSON.stringify(checked.value));
        return checked.value;
      });
    },
  };
}
