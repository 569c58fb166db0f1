import { mean, sd } from '../../basics/statistics.ts';
import type { Evidence } from './evidence.ts';
import type { Side } from './measured.ts';
import type { Rest } from './rocks.ts';

/**
 * A stop at which the gear stood twice, at two places, rest after rest: first where the teeth met and then farther on, because
 * the pinion gave under the hand; or home, and then back where the hand let go. Both places repeat, so that nothing else tells
 * that the number may be that of the wrong one. A hand that hesitates stands somewhere else each time.
 * @returns how far apart the two places are, mm, farther out positive; undefined where rests stand at one place.
 */
export function stoodTwice({ rests, noise, settings, between }: Evidence): number | undefined {
  const least = Math.max(2 * settings.resolution, 3 * noise, OF_BACKLASH * between.value);
  for (const side of ['low', 'high'] as const) {
    const on = rests.filter((rest) => rest.side === side);
    const steps = on.flatMap((rest) => stepOf(rest, side, between.value));
    if (steps.length < FEWEST || steps.length < on.length / 2) continue;
    const step = mean(steps);
    if (Math.abs(step) > least && sd(steps) <= Math.max(ALIKE * Math.abs(step), noise)) return step;
  }
  return undefined;
}

/** From where it stood else to where it rests; none where it stood nowhere else, too briefly or too far off to be a stop, or crept on. */
function stepOf({ also, level, still }: Rest, side: Side, backlash: number): readonly number[] {
  if (also === undefined || also.length < Math.max(FEW_READINGS, OF_REST * still)) return [];
  const step = (level - also.level) * (side === 'high' ? 1 : -1);
  const crept = Math.abs(also.creep) > CREPT * Math.abs(step);
  return Math.abs(step) < NEAR_STOP * backlash && !crept ? [step] : [];
}

/** Of the backlash: less lies within what rests creep (held.ts); more is half-way. */
const OF_BACKLASH = 0.03;
const NEAR_STOP = 0.3;
/** Rests of one side that stood twice. */
const FEWEST = 3;
/** A still that itself goes so much of the way is a piece of one that creeps, which held.ts weighs. */
const CREPT = 0.3;
/** The two places are as far apart each time, but for this share (own choice). */
const ALIKE = 0.25;
/** Readings, and share of the rest's own, for which it stood at the other place. */
const FEW_READINGS = 3;
const OF_REST = 0.2;
