import type { SleeveAdvice, SleeveStand } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { toDegrees } from '../../../../shared/basics/quantity.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import type { Cue } from '../../../cues/cue.ts';
import type { SleeveAim } from './steps.ts';

/** Where it stands, in the few words that are read from afar. */
export const standTitle: Readonly<Record<SleeveStand, string>> = {
  start: 'Before the first step',
  below: 'Below the band',
  'small-steps': 'Smaller steps now',
  'in-band': 'In the band',
  above: 'Above the band',
  ceiling: 'Stop: the nut’s largest torque',
  'no-band': 'First the band',
};

export const standCue: Readonly<Record<SleeveStand, Cue>> = {
  start: 'rest',
  below: 'rock',
  'small-steps': 'rock',
  'in-band': 'done',
  above: 'outside',
  ceiling: 'refused',
  'no-band': 'rest',
};

/** Where creeping on would do harm. */
export const isStop = (stand: SleeveStand): boolean => stand === 'above' || stand === 'ceiling';

/** What one more step like the last is expected to bring, and how far the middle of the band is. */
export function comingWords({ next, toMiddle, stand }: SleeveAdvice, units: UnitSystem): string | undefined {
  if ('none' in next || stand === 'in-band' || isStop(stand)) return undefined;
  const shown = (torque: number): string => showText(torque, 'torque', units);
  const coming = `One more like the last is expected at ${shown(next.running)} ± ${shown(2 * next.u)}.`;
  if (typeof toMiddle !== 'number' || toMiddle <= 0) return coming;
  return `${coming} The middle of the band is about ${Math.round(toDegrees(toMiddle))}° of the nut away; take half of that.`;
}

/** Sleeves cost money and say something of the hand; the record has each with its steps. */
export const wastedWords = (wasted: number): string =>
  wasted === 1
    ? 'One sleeve was crushed too far before this one; it is in the record.'
    : `${wasted} sleeves were crushed too far before this one; they are in the record.`;

/** The band and the stop, with their sources. */
export function aimWords({ limit, ceiling }: SleeveAim, units: UnitSystem): string {
  const band = `Band ${limitWords(limit, units)}`;
  if (ceiling === undefined)
    return `${band}, from ${limit.source}. No largest nut torque is entered; the maker’s manual has one.`;
  const nut = `nut ${limitWords(ceiling, units)}`;
  return ceiling.source === limit.source
    ? `${band}, ${nut}, from ${limit.source}.`
    : `${band}, from ${limit.source}; ${nut}, from ${ceiling.source}.`;
}
