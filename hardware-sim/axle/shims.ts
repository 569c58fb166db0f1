import type { Position } from './mesh/contact.ts';

/** Shim packs by place, as clamped, mm. Side shims stand outboard, between housing and bearing cup. */
export interface Shims {
  /** Between the pinion's head and its inner bearing: thicker sets the pinion deeper. */
  readonly head_mm: number;
  /** On the ring-gear side: thicker brings the ring gear closer to the pinion. */
  readonly ringSide_mm: number;
  readonly otherSide_mm: number;
}

/** The packs with which one gear set sits in one housing exactly where it was cut to sit, and the case's own fit. */
export interface Fit {
  readonly right: Shims;
  /** Both side packs together at which the case has neither play nor preload, mm. */
  readonly zeroPlay_mm: number;
}

/** How far the side packs spread the bearings (preload, positive) or leave them loose (end play, negative), mm. */
export const squeeze = (shims: Shims, fit: Fit, wear_mm: number): number =>
  shims.ringSide_mm + shims.otherSide_mm - fit.zeroPlay_mm - wear_mm;

/**
 * Where the gears stand. The case is pushed off its ring-gear side by that pack; under preload both bearings give
 * alike, so half the squeeze comes back. A loose case is pushed onto its ring-gear
 * side by the mesh, half the play away from its middle.
 */
export function positionOf(shims: Shims, fit: Fit, wear_mm: number): Position {
  const [now, then] = [squeeze(shims, fit, wear_mm), squeeze(fit.right, fit, 0)];
  const given = (Math.max(0, now) - Math.max(0, then)) / 2;
  return {
    pinionOut_mm: fit.right.head_mm - shims.head_mm,
    ringAway_mm: fit.right.ringSide_mm - shims.ringSide_mm + given + wear_mm / 2,
  };
}
