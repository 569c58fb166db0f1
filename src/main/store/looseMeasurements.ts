import { type LooseMeasurement, looseMeasurementSchema } from '../../shared/contract/builds.ts';
import type { Database } from './database.ts';

/** Measurements taken without a build, until one of them is kept into one. */
export interface LooseMeasurements {
  list(): readonly LooseMeasurement[];
  read(id: string): LooseMeasurement | undefined;
  add(measurement: LooseMeasurement): void;
  keepIn(id: string, build: string): void;
}

interface Row {
  readonly record: string;
  readonly kept_in: string | null;
}

export function openLooseMeasurements(database: Database): LooseMeasurements {
  const { sql } = database;
  const list = sql.prepare<[], Row>('SELECT record, kept_in FROM loose_measurement ORDER BY at DESC LIMIT 200');
  const read = sql.prepare<[string], Row>('SELECT record, kept_in FROM loose_measurement WHERE id = ?');
  const add = sql.prepare<[string, string, string]>('INSERT INTO loose_measurement (id, at, record) VALUES (?, ?, ?)');
  const keepIn = sql.prepare<[string, string]>('UPDATE loose_measurement SET kept_in = ? WHERE id = ?');
  return {
    list: () => list.all().map(measurementOf),
    read: (id) => {
      const row = read.get(id);
      return row === undefined ? undefined : measurementOf(row);
    },
    add: (measurement) => void add.run(measurement.id, measurement.at, JSON.stringify(measurement)),
    keepIn: (id, build) => void keepIn.run(build, id),
  };
}

const measurementOf = (row: Row): LooseMeasurement =>
  looseMeasurementSchema.parse({
    ...(JSON.parse(row.record) as object),
    ...(row.kept_in === null ? {} : { keptIn: row.kept_in }),
  });
