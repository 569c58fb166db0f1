import type { TrialSeen } from '../../../src/shared/axle/plan/input.ts';

/** Common practice: backlash for each mm moved, generous to the rule because it is about what these axles do. */
const perRingAway = 0.9;
const perPinionOut = 0.3;
const steps = [0.25, 0.15, 0.075] as const;

/**
 * The shop rule (common practice): backlash to the middle of its window; depth by the height of the drive mark in steps
 * of 0.25, 0.15 or 0.075 mm, the farther off the larger, until the mark crosses; then half the last step each time.
 */
export function shopRule(trials: readonly TrialSeen[], middle_mm: number): { pinionOut: number; ringAway: number } {
  const last = trials.at(-1);
  if (last === undefined) return { pinionOut: 0, ringAway: 0 };
  const moved = depthStep(trials);
  const wanted = middle_mm - last.backlash.mean_mm - perPinionOut * moved;
  return { pinionOut: last.pinionOut_mm + moved, ringAway: last.ringAway_mm + wanted / perRingAway };
}

function depthStep(trials: readonly TrialSeen[]): number {
  const heights = trials.map(({ pattern }) => pattern.drive.crown);
  const height = heights.at(-1) ?? 0;
  // Inside the target by its reading: only the backlash is looked after.
  if (Math.abs(height) <= 0.12) return 0;
  const direction = -Math.sign(height);
  const crossed = heights.some((before) => before * height < 0);
  const before = Math.abs((trials.at(-1)?.pinionOut_mm ?? 0) - (trials.at(-2)?.pinionOut_mm ?? 0));
  if (crossed && before > 0) return (direction * before) / 2;
  const [far, middling, near] = steps;
  if (Math.abs(height) > 0.25) return direction * far;
  return direction * (Math.abs(height) > 0.18 ? middling : near);
}
