import { sd } from '../statistics.ts';

/**
 * When a station has enough rocks.
 *
 * A rule that looks after every rock and stops as soon as a few agree picks those that happen to agree: its spread is
 * too small, its value is that of the luckier rocks, and its uncertainty covers less than it says. So:
 *
 * - all rocks of the station count, always; none is dropped for disagreeing;
 * - the first look comes after a number of rocks fixed beforehand, four, and later looks are few (6, 8, 10, 12);
 * - a look compares the spread with what resolution and the noise inside the rests explain, a bound known without the
 *   rocks themselves. Honest rocks pass it at the first look nearly always, so passing picks nothing. The mean has no
 *   part in the decision, and for normal scatter the mean of a sample does not depend on its spread: stopping by the
 *   spread leaves the value unbiased;
 * - what does not pass by the last look is refused, not given with a larger doubt.
 */
export const LOOKS: readonly number[] = [4, 6, 8, 10, 12];
export const MOST_ROCKS = 12;
/** A technician who leaves after three rocks has said that it is enough; two have no spread worth the name. */
export const LEAST_ROCKS = 3;

/** A hand does not press to better than this share of the backlash, on any gauge. Assumed, not measured. */
const OF_HAND = 0.004;

/**
 * Largest standard deviation of `rocks` rocks that still repeat: then their mean lies within
 * resolution + 3·noise/√rocks with three standard errors to spare.
 */
export const largestSpread = (rocks: number, resolution: number, noise: number, backlash: number): number =>
  (resolution * Math.sqrt(rocks)) / 3 + noise + OF_HAND * backlash;

/** Do these rocks repeat? Needs {@link LEAST_ROCKS}. */
export function repeat(values: readonly number[], mean: number, resolution: number, noise: number): boolean {
  if (values.length < LEAST_ROCKS) return false;
  return sd(values) <= largestSpread(values.length, resolution, noise, mean);
}
