import { type LooseMeasurement, looseMeasurementSchema, mostLoose } from '../../shared/contract/builds.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, writable } from './recordRows.ts';

/** Measurements taken without a build, until one of them is kept into one. */
export interface LooseMeasurements {
  /** A page of those that can be read, the one taken last first: those behind `before`, or from the first. */
  list(before?: string): readonly LooseMeasurement[];
  read(id: string): LooseMeasurement | undefined;
  add(measurement: LooseMeasurement): Result<LooseMeasurement>;
  keepIn(id: string, build: string): Result<void>;
}

interface Row {
  readonly id: string;
  readonly record: string;
  readonly kept_in: string | null;
}

export function openLooseMeasurements({ sql, write }: Database, skip: Skip): LooseMeasurements {
  // In the order in which they were written: the clock may have been set back between them.
  const list = sql.prepare<[string | null, string | null], Row>(`
    SELECT id, record, kept_in FROM loose_measurement
    WHERE ? IS NULL OR rowid < (SELECT rowid FROM loose_measurement WHERE id = ?)
    ORDER BY rowid DESC`);
  const read = sql.prepare<[string], Row>('SELECT id, record, kept_in FROM loose_measurement WHERE id = ?');
  const add = sql.prepare<[string, string, string]>('INSERT INTO loose_measurement (id, at, record) VALUES (?, ?, ?)');
  const keepIn = sql.prepare<[string, string]>('UPDATE loose_measurement SET kept_in = ? WHERE id = ?');
  const measurementOf = (row: Row): LooseMeasurement | undefined => {
    const read = readable(looseMeasurementSchema, () => storedIn(row), 'A measurement kept without a build');
    if (read.ok) return read.value;
    skip(`measurement ${row.id}`, read.problem);
    return undefined;
  };
  return {
    list(before) {
      const page: LooseMeasurement[] = [];
      for (const row of list.iterate(before ?? null, before ?? null)) {
        const one = measurementOf(row);
        if (one !== undefined) page.push(one);
        if (page.length === mostLoose) break;
      }
      return page;
    },
    read: (id) => {
      const row = read.get(id);
      return row === undefined ? undefined : measurementOf(row);
    },
    add(measurement) {
      const checked = writable(looseMeasurementSchema, measurement, 'This measurement');
      if (!checked.ok) return checked;
      return write(() => {
        add.run(checked.value.id, checked.value.at, JSON.stringify(checked.value));
        return checked.value;
      });
    },
    keepIn: (id, build) => write(() => void keepIn.run(build, id)),
  };
}

const storedIn = (row: Row): unknown => ({
  ...(JSON.parse(row.record) as object),
  ...(row.kept_in === null ? {} : { keptIn: row.kept_in }),
});
