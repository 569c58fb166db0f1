import type { Flank } from '../mark/mark.ts';
import type { CompleteSet } from './completeSet.ts';
import type { ShimMovement } from './rates.ts';

/** How far a predicted direction may be relied on: it can be acted on, it can turn round, nobody knows. */
export type Trust = 'good' | 'weak' | 'unknown';

/**
 * Trust in the direction of a mark's movement. Height under pinion movement never turned round in 26 geometries; under
 * ring-gear movement it is small and its sign follows the bias. Along the face the answer turns with cut, cutter, offset
 * and bias, but for the convex flank under ring-gear movement, which kept its sign in all 26 (derived).
 */
export function trustIn(set: CompleteSet, flank: Flank, movement: ShimMovement): { heel: Trust; crown: Trust } {
  const crown: Trust = movement === 'pinionOut' ? 'good' : 'weak';
  if (!set.cutKnown) return { heel: 'unknown', crown };
  return { heel: movement === 'ringAway' && flank === 'convex' ? 'good' : 'weak', crown };
}
