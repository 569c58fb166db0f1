import { none, type NoNumber } from '../../basics/result.ts';
import { turnRate } from '../mesh/rates.ts';
import type { MeshModel } from '../mesh/meshModel.ts';
import type { BacklashBasis, PlanInput, TrialSeen } from './input.ts';
import { backlashAnswer } from './priorOf.ts';
import { readingPerTurn } from './sight.ts';

/** What is asked for the ring gear alone: no mark is needed, the backlash says it all. */
export interface SideAsked {
  readonly driveFlank: PlanInput['set']['driveFlank'];
  readonly backlashBasis: BacklashBasis;
  readonly limits: PlanInput['limits'];
  /** Side shim step, or what one notch moves (mm). */
  readonly step_mm: number;
  readonly backlash: TrialSeen['backlash'];
}

/** Where the ring gear should go from where it stands: away from the pinion positive (mm). */
interface SideMove {
  readonly ringAway_mm: number;
  /** Mean backlash to expect there and how sure (expanded uncertainty); of gears that bind nobody knows. */
  readonly expected: { readonly mean_mm: number; readonly U95_mm: number } | NoNumber;
}

/** A mesh without free movement somewhere round the gear: how far it is pressed together cannot be read. */
export const binds = ({ min_mm }: TrialSeen['backlash']): boolean => min_mm <= 0;

/** What is expected of gears that bind. */
export const notKnown = none('gears that bind do not say how far they are pressed together');

/**
 * The ring gear's move that brings a backlash to the middle of its window, by the same arithmetic as the plan: what the
 * two flanks open for each mm away, with the doubt that published answers leave. Gears that bind are given the middle of
 * the window and half of it more, so that they most likely rock and can be read.
 * @returns a whole number of steps; 0 where the backlash is inside its window all round.
 */
export function sideMoveFor(model: MeshModel, asked: SideAsked): SideMove {
  const { backlash, limits, step_mm } = asked;
  const [low, high] = limits.backlash_mm;
  const perAway = backlashPerAway(model, asked.backlashBasis, asked.driveFlank);
  const inSteps = (wanted: number): number => Number((Math.round(wanted / step_mm) * step_mm).toFixed(6));
  if (binds(backlash)) {
    const away = Math.ceil(high / perAway / step_mm) * step_mm;
    return {
      ringAway_mm: Number(away.toFixed(6)),
      expected: notKnown,
    };
  }
  if (backlash.min_mm >= low && backlash.max_mm <= high)
    return { ringAway_mm: 0, expected: expectedAt(backlash, 0, perAway) };
  // The middle for the mean that leaves the smallest and the largest station equal room.
  const middle = (low + high) / 2 + backlash.mean_mm - (backlash.min_mm + backlash.max_mm) / 2;
  const moved = inSteps((middle - backlash.mean_mm) / perAway);
  return { ringAway_mm: moved, expected: expectedAt(backlash, moved, perAway) };
}

/** Backlash for each mm the ring gear moves away, on the basis it is read on. */
export function backlashPerAway(model: MeshModel, basis: BacklashBasis, driveFlank: SideAsked['driveFlank']): number {
  const turn = turnRate(model, 'ringAway') / model.blank.ringMeanRadius;
  return turn * readingPerTurn(model, basis, driveFlank) + backlashAnswer.perRingAway.mean;
}

function expectedAt({ mean_mm, U95_mm = 0.01 }: TrialSeen['backlash'], moved: number, perAway: number) {
  const spread = 2 * backlashAnswer.perRingAway.spread * Math.abs(moved);
  return {
    mean_mm: Number((mean_mm + perAway * moved).toFixed(3)),
    U95_mm: Number(Math.hypot(spread, U95_mm).toFixed(3)),
  };
}
