import { mean, sd } from '../../basics/statistics.ts';
import { valuesOf, type Rock } from './rocks.ts';

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
export const OF_HAND = 0.004;

/**
 * Largest standard deviation of rocks that still repeat. Two bounds, the smaller holds:
 *
 * - their mean lies within resolution + 3·noise/√rocks of the truth with three standard errors to spare;
 * - noise and rounding of two rests as long as these explain it: 2.33 is where a spread of four rocks lies beyond in one
 *   case of a thousand (√(χ²₀.₉₉₉(3)/3), derived). Long rests of a noisy gauge average so well that the first bound alone
 *   would let uneven rocks pass.
 *
 * On top comes what no hand can do better than.
 */
export function largestSpread(rocks: readonly Rock[], resolution: number, noise: number): number {
  const first = (resolution * Math.sqrt(rocks.length)) / 3 + noise;
  const ofRests = mean(rocks.map(({ one, other }) => 1 / one.readings + 1 / other.readings));
  const explained = Math.sqrt((resolution * resolution) / 6 + noise * noise * ofRests);
  return Math.min(first, ONE_IN_A_THOUSAND * explained) + OF_HAND * mean(valuesOf(rocks));
}

const ONE_IN_A_THOUSAND = 2.33;

/** Do these rocks repeat? Fewer than {@link LEAST_ROCKS} never do. */
export function repeat(rocks: readonly Rock[], resolution: number, noise: number): boolean {
  return rocks.length >= LEAST_ROCKS && sd(valuesOf(rocks)) <= largestSpread(rocks, resolution, noise);
}
