import type { UncertaintyPart } from '../../../../shared/measuring/uncertainty/uncertainty.ts';
import { judge } from '../../../../shared/measuring/uncertainty/verdict.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { endsOf, type Limit, type SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { settleWords } from '../../../../shared/presentation/words/standing.ts';

interface StationSaid {
  readonly number: number;
  readonly station: { readonly value: unknown; readonly U95: number; readonly parts?: readonly UncertaintyPart[] };
  readonly limit: Limit | undefined;
  readonly sheet: SpecSheet | undefined;
}

/** "Station 3: 0.331 mm, 0.031 mm above the window." */
export function stationSentence({ number, station, limit, sheet }: StationSaid, system: UnitSystem): string {
  if (typeof station.value !== 'number') return `Station ${number}: no number.`;
  const value = showText(station.value, 'length', system);
  if (limit === undefined) return `Station ${number}: ${value}.`;
  const judged = judge(station.value, station.U95, endsOf(limit), sheet?.rule ?? 'simple', station.parts);
  const { beyond, closeCall } = judged;
  const settle = settleWords(judged, { result: { kind: 'backlash' } });
  if (beyond !== undefined) {
    const by = showText(Math.abs(beyond), 'length', system);
    return `Station ${number}: ${value}, ${by} ${beyond > 0 ? 'above' : 'below'} the window.${settle}`;
  }
  return `Station ${number}: ${value}, within${closeCall ? ', too close to call' : ''}.${settle}`;
}
