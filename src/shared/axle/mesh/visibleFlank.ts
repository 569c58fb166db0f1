import { type Length, mm } from '../../basics/quantity.ts';
import type { Blank } from './blank.ts';
import type { CompleteSet } from './completeSet.ts';

/** The part of a ring-gear flank that a photo shows, between tip edge and fillet, in places (u, v) from the mean point. */
export interface VisibleFlank {
  readonly faceWidth: Length;
  /** Height at mid face. */
  readonly height: Length;
  /** v of the middle of that height: below the pitch line, because the ring gear's tooth is mostly root. */
  readonly middle: Length;
  /** Growth of all heights for each mm towards the heel; 0 for uniform depth. */
  readonly taper: number;
}

/**
 * Heights of the tooth (AGMA 2005 practice, from memory, text not seen): working depth two normal modules, the ring
 * gear's addendum the share 0.21 + 0.29/u² of it, clearance an eighth; about 1.05 working depths can be seen.
 * @param height what was read off the parts, where it was.
 */
export function visibleFlankOf(set: CompleteSet, blank: Blank, height: Length | undefined): VisibleFlank {
  const module = (2 * blank.ringMeanRadius * Math.cos(blank.ringSpiral)) / set.ringTeeth;
  const visible = height ?? 1.05 * 2 * module;
  const depth = visible / 1.05;
  const addendumShare = 0.21 + 0.29 / blank.ratio ** 2;
  const dedendum = (1.125 - addendumShare) * depth;
  return {
    faceWidth: set.faceWidth,
    height: mm(visible),
    middle: mm((addendumShare - 0.5) * depth),
    // The root edge follows the tilted root plane; the other heights shrink with it towards the toe.
    taper: Math.tan(set.rootTilt) / dedendum,
  };
}

/** How much taller everything is at `u` than at mid face. */
export const growthAt = (flank: VisibleFlank, u: number): number => 1 + flank.taper * u;

/** v of a place given as a fraction of the visible height at `u`, from its middle there. */
export const placeUp = (flank: VisibleFlank, u: number, crown: number): number =>
  (flank.middle + crown * flank.height) * growthAt(flank, u);
