import type { GaugeReading } from '../../shared/gauges/gaugeReading.ts';
import type { StreamLine } from '../../shared/gauges/lineStream.ts';
import { none } from '../../shared/basics/result.ts';
import type { Journal } from '../journal/journal.ts';

interface Hearing {
  readonly gauge: string;
  readonly journal: Journal;
}

/** Journals the lines of one gauge in the order they came, and gives them with their row numbers. */
export function lineHearing({ gauge, journal }: Hearing): (lines: readonly StreamLine[], at: number) => GaugeReading[] {
  let unitBefore: string | undefined;
  return (lines, at) =>
    lines.map((line) => {
      const { raw, t } = line;
      if ('why' in line) {
        const seq = journal.append({ kind: 'unreadable', gauge, t, at, raw, note: line.why });
        return { gauge, seq, t, at, raw, value: none(line.why), unit: '', flags: [] };
      }
      const { value, unit, flags } = line;
      if (unitBefore !== undefined && unitBefore !== unit) {
        journal.append({ kind: 'unit', gauge, t, at, note: `${unitBefore} → ${unit}` });
      }
      unitBefore = unit;
      const note = flags.length === 0 ? {} : { note: flags.join(',') };
      const seq = journal.append({ kind: 'reading', gauge, t, at, value, unit, raw, ...note });
      return { gauge, seq, t, at, raw, value, unit, flags };
    });
}
