import { showText, type UnitSystem } from '../../basics/show.ts';
import { endsOf, type Limit, limitedQuantities, type LimitedQuantity } from '../../job/records/specSheet.ts';
import type { LineChange } from '../../job/checks/limitChanges.ts';
import { basisWords } from '../../job/checks/judge.ts';

/** What a limit is for, as the trade says it. */
export const quantityWords: Readonly<Record<LimitedQuantity, string>> = {
  backlash: 'Backlash',
  'backlash-variation': 'Backlash variation',
  'ring-gear-runout': 'Ring gear runout',
  'flange-runout': 'Case flange runout',
  'case-end-play': 'Case end play',
  'case-preload': 'Case bearing preload',
  'ring-gear-seat': 'Ring gear seat gap',
  'cup-seat': 'Cup seat gap',
  'pinion-torque': 'Pinion rotating torque',
  'total-torque': 'Total rotating torque',
  'cap-torque': 'Bearing cap torque',
  'ring-bolt-torque': 'Ring gear bolt torque',
  'pinion-nut-torque': 'Pinion nut torque',
};

/** "0.200 to 0.300 mm", "at most 0.050 mm", "at least 2.00 N·m". */
export function limitWords(limit: Limit, system: UnitSystem): string {
  const { min, max } = endsOf(limit);
  const dimension = limitedQuantities[limit.quantity];
  const shown = (value: number): string => showText(value, dimension, system);
  if (min !== undefined && max !== undefined) return `${shown(min)} to ${shown(max)}`;
  if (max !== undefined) return `at most ${shown(max)}`;
  return min === undefined ? 'no limit' : `at least ${shown(min)}`;
}

/** "backlash 0.180 to 0.300 mm, was 0.200 to 0.300 mm". */
export function limitChangeWords({ from, to }: LineChange, system: UnitSystem): string {
  const limit = to ?? from;
  if (limit === undefined) return '';
  const basis = limitBasisWords(limit);
  const name = `${quantityWords[limit.quantity].toLowerCase()}${basis === '' ? '' : ` (${basis})`}`;
  const now = to === undefined ? 'taken out' : limitWords(to, system);
  return `${name} ${now}${from === undefined ? '' : `, was ${limitWords(from, system)}`}`;
}

/** On what basis the limit is meant, or nothing where there is only one way to measure it. */
export function limitBasisWords(limit: Limit): string {
  if (!('basis' in limit)) return '';
  if ('direction' in limit.basis) return basisWords(limit.basis);
  const { basis, seal, bearings } = limit.basis;
  return `${basis}, seal ${seal}, ${bearings} bearings`;
}
