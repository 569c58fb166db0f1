import type { PlanAnswer } from './answer.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { toldChance } from './fit.ts';
import { outlookAt } from './outlook.ts';
import { binds, notKnown, sideMoveFor } from './sideMove.ts';
import { lookedAt } from './warnings.ts';
import { millimetres } from './words.ts';

/** Nobody knows how far gears that bind are pressed together, so nothing is promised above this. */
const atMost = 0.5;

/**
 * Gears that bind: the ring gear away until it rocks, and nothing else. Their marks were pressed on and their backlash is
 * only a bound, so that no depth can be planned from them.
 * @returns nothing where the last trial rocks all round.
 */
export function bindingAnswer(insight: Insight, input: PlanInput): PlanAnswer | undefined {
  const last = input.trials.at(-1);
  if (last === undefined || !binds(last.backlash)) return undefined;
  const { set, backlashBasis, limits, shimStep_mm } = input;
  const asked = {
    driveFlank: set.driveFlank,
    backlashBasis,
    limits,
    step_mm: shimStep_mm.side,
    backlash: last.backlash,
  };
  const { ringAway_mm } = sideMoveFor(insight.sight.model, asked);
  const place = { pinionOut: last.pinionOut_mm, ringAway: Number((last.ringAway_mm + ringAway_mm).toFixed(6)) };
  const { chance } = outlookAt(insight.sight, insight.axles, insight.aim, place);
  return {
    decision: 'change',
    chance: toldChance(Math.min(atMost, chance), insight.misfit),
    look: [],
    pinionOut_mm: place.pinionOut,
    ringAway_mm: place.ringAway,
    expected: notKnown,
    reasons: [
      `The gears bind: the ring gear moves away from the pinion, ${millimetres(ringAway_mm)} to begin with and farther until it rocks all round.`,
      'Then read the backlash and paint again; the pinion stays where it is, because a mark pressed on says little about its depth.',
    ],
    warnings: [
      'How far gears that bind are pressed together cannot be read, so nothing is promised of what the backlash will be.',
      ...lookedAt(input),
    ],
  };
}
