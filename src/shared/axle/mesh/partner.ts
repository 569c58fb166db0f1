import { placeChange, type Frame } from './frame.ts';
import type { Meeting } from './meshing.ts';
import { blend, dot, plus, times, type Vector } from './vector.ts';

/** A change of place on the flank: along the face and up it. */
interface PlaceShift {
  readonly u: number;
  readonly v: number;
}

/** How the roll at which places touch changes along the flank (rad/mm). */
export type RollSlope = PlaceShift;

/**
 * The relief is ground into the pinion, so it travels with the pinion: after a movement a ring-gear place meets what was
 * carved for another place. This is how far from it that other place lies, for each mm moved along `direction`.
 *
 * The pinion set back by d, and the ring gear turned back by what closed the gap, bring the pinion's point to r − d + ε k×r.
 * Its tangential part is the shift at once; then it slides on until the roll is the one at which its new place touches.
 * @param mean meeting of the mean point, which says how far the ring gear turned to close.
 */
export function partnerShift(
  frame: Frame,
  meeting: Meeting,
  mean: Meeting,
  slope: RollSlope,
  direction: Vector,
): PlaceShift {
  const { point, normal, slide, parting } = meeting;
  const turn = dot(direction, mean.normal) / mean.lever;
  const back = plus(times(-1, direction), times(turn, [-point[1], point[0], 0]));
  const [u, v] = placeChange(frame, point, blend(1, back, 0 - dot(back, normal), normal));
  // Only movement along the ring-gear axis changes at which roll a place meets the pinion.
  const later = (frame.blank.ratio * normal[1] * direction[2]) / parting;
  const on = (slope.u * u + slope.v * v - later) / following(slide, slope);
  return { u: u - slide.u * on, v: v - slide.v * on };
}

/** Nearer to 0 than this the pinion would be undercut there, and these first-order answers mean nothing (own bound). */
const leastFollowing = 0.25;

/** How fast a place on the pinion falls behind its roll: 1 + slide · ∇roll; 0 where the pinion's flank ends in a cusp. */
export const following = (slide: PlaceShift, slope: RollSlope): number =>
  Math.max(leastFollowing, 1 + slope.u * slide.u + slope.v * slide.v);
