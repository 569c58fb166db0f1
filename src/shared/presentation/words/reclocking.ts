import { showText, type UnitSystem } from '../../basics/show.ts';
import type { Reclocking } from '../../job/gear/reclocking.ts';

/** "Bolt the ring gear 4 holes further on, clockwise as you look at its teeth. Once a turn it should then run out by …" */
export function reclockWords({ worth, now, best, assumed }: Reclocking, system: UnitSystem): string {
  const shown = (value: number): string => showText(value, 'length', system);
  const at = ({ tir_mm, U95_mm }: Reclocking['now']): string => `${shown(tir_mm)} ± ${shown(U95_mm)}`;
  if (!worth) return `No other bolt position is surely better. Once a turn it now runs out by ${at(now)}.`;
  const holes = best.holes === 1 ? '1 hole' : `${best.holes} holes`;
  return [
    `Bolt the ring gear ${holes} further on, clockwise as you look at its teeth.`,
    `Once a turn it should then run out by ${at(best)}, now ${at(now)}.`,
    ...assumed.map((one) => assumedWords[one]),
  ].join(' ');
}

const assumedWords: Readonly<Record<Reclocking['assumed'][number], string>> = {
  'same-place': 'This takes it that the stem stood at the same side for flange and gear.',
  'same-radius': 'This takes it that the stem stood at the same radius for both.',
};
