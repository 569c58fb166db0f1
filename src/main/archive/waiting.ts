import { readPages } from '../journal/readRows.ts';
import type { Stretch } from '../../shared/job/records/measurement.ts';
import { stretchOf } from '../certificate/readings.ts';
import type { Entry } from '../../shared/job/records/notebook.ts';
import type { Database } from '../store/database.ts';

/** What is in the records and not in the archive. */
export interface Waiting {
  readonly entries: number;
  readonly readings: number;
  readonly photos: number;
}

interface Row {
  readonly bench: string | null;
  readonly deed: string;
}

/** Counts what lies behind a line of the notebooks. Readings are counted row by row: those of one gauge lie among those of others. */
export function waitingBehind({ sql }: Pick<Database, 'sql'>, line: number): Waiting {
  const rows = sql.prepare<[number], Row>('SELECT bench, deed FROM notebook_entry WHERE line > ?');
  const stretches = new Map<string, Stretch>();
  let [entries, photos] = [0, 0];
  for (const { bench, deed: text } of rows.iterate(line)) {
    entries += 1;
    const deed = JSON.parse(text) as Entry['deed'];
    if (deed.kind === 'photographed') photos += 1;
    // Those of other benches came from the archive, or with a file of theirs.
    const stretch = bench === null ? stretchOf(deed) : undefined;
    if (stretch !== undefined) stretches.set(JSON.stringify([stretch.gauge, stretch.from, stretch.to]), stretch);
  }
  let readings = 0;
  for (const { gauge, from, to } of stretches.values())
    for (const _ of readPages(sql, gauge, from, to, false)) readings += 1;
  return { entries, readings, photos };
}
