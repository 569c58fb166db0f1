import { systemClock } from '../../../src/main/clock.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { temporaryFolder } from '../folder.ts';
import { benchInNewFolder, valueOf } from '../bench/open.ts';

/** One line as `watch` writes it: a reading, or a press. */
export type Watched = Readonly<Record<string, unknown>>;

export interface Journaled {
  readonly folder: string;
  /** The gauge the readings are of. */
  readonly gauge: string;
  readonly stretch: { readonly gauge: string; readonly from: number; readonly to: number };
}

/** A data folder whose journal holds these lines as an indicator's or torque gauge's, with the bench closed again. */
export async function journaled(
  lines: readonly Watched[],
  kind: 'indicator' | 'torque',
  at_ms = Date.now(),
): Promise<Journaled> {
  const folder = temporaryFolder();
  const bench = benchInNewFolder(undefined, folder);
  const resolution =
    kind === 'indicator' ? { value: 0.001, unit: 'mm' as const } : { value: 0.01, unit: 'N.m' as const };
  const { id } = valueOf(await bench.answers['gauges.save']({ gauge: { label: 'Gauge', kind, resolution } }));
  await bench.close();
  const database = valueOf(openDatabase(folder, systemClock));
  const journal = openJournal(database);
  const seqs = lines.map((line) => journal.append(rowOf(line, id, at_ms)));
  valueOf(journal.flush());
  journal.close();
  database.close();
  return { folder, gauge: id, stretch: { gauge: id, from: seqs[0] ?? 0, to: seqs.at(-1) ?? 0 } };
}

function rowOf({ t, value, unit, pedal }: Watched, gauge: string, at_ms: number) {
  const times = { t: Number(t), at: at_ms + 1000 * Number(t) };
  if (typeof pedal === 'string') return { kind: 'pedal', ...times, note: pedal } as const;
  return {
    kind: 'reading',
    gauge,
    ...times,
    value: Number(value),
    unit: typeof unit === 'string' ? unit : '',
    raw: new Uint8Array(),
  } as const;
}
