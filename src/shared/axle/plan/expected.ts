import { none } from '../../basics/result.ts';
import type { Expected, ExpectedPlace } from './answer.ts';
import type { Choice } from './decide.ts';
import type { PlanInput, Side } from './input.ts';
import type { Insight } from './insight.ts';
import { readingOf } from './misfit.ts';
import type { Figure } from './outlook.ts';

/** What should be read at the chosen place; the spread of the axles and of the reading itself make its uncertainty. */
export function expectedFrom(insight: Insight, { chosen }: Choice, { trials }: PlanInput): Expected {
  const last = trials.at(-1);
  const doubt = (side: Side, along: 'heel' | 'crown'): number =>
    last === undefined ? 0 : readingOf(last.pattern[side], along);
  const known = (value: number): ExpectedPlace['heel'] =>
    insight.sight.lengthwise ? hundredths(value) : none('the cut is not known');
  const place = (side: Side): ExpectedPlace => ({
    heel: known(chosen.marks[side].heel.mean),
    crown: hundredths(chosen.marks[side].crown.mean),
  });
  const spread = (side: Side): ExpectedPlace => ({
    heel: known(expanded(chosen.marks[side].heel, doubt(side, 'heel'))),
    crown: hundredths(expanded(chosen.marks[side].crown, doubt(side, 'crown'))),
  });
  const { mean } = chosen.backlash;
  const readingBacklash = (last?.backlash.U95_mm ?? 0.01) / 2;
  return {
    backlash: {
      mean_mm: microns(mean),
      min_mm: microns(mean - insight.aim.below),
      max_mm: microns(mean + insight.aim.above),
    },
    pattern: { drive: place('drive'), coast: place('coast') },
    U95: {
      backlash_mm: microns(expanded(chosen.backlash, readingBacklash)),
      drive: spread('drive'),
      coast: spread('coast'),
    },
  };
}

/** Coverage factor 2 for about 95 %, the spread of what is believed and of the reading together. */
const expanded = ({ sd }: Figure, reading: number): number => 2 * Math.hypot(sd, reading);

const microns = (value: number): number => Number(value.toFixed(3));
const hundredths = (value: number): number => Number(value.toFixed(3));
