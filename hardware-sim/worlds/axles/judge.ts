import type { Random } from '../../seeded.ts';
import { type Knowing, priorCloud, taught } from './cloud.ts';
import type { TrialRead } from './hands.ts';
import { driveRight, standsAt } from './right.ts';

const particles = 400;

/**
 * The chance that drive mark and backlash are right at a place, weighed exactly after one trial by who knows the
 * population (particles of its own, not the ideal's): it parts two first steps with far fewer axles than whether each
 * came right on the one axle that stands there.
 */
export function judgeAfter(
  knowing: Knowing,
  trial: TrialRead,
  random: Random,
): (place: { readonly pinionOut: number; readonly ringAway: number }) => number {
  const cloud = taught(priorCloud(knowing, particles, random), knowing, [trial], random);
  return ({ pinionOut, ringAway }) => {
    const right = cloud.filter(({ axle }) => driveRight(axle, standsAt(axle, pinionOut, ringAway)));
    return right.length / cloud.length;
  };
}
