import { ok, type Result } from '../../basics/result.ts';
import type { PlanAnswer } from './answer.ts';
import { bindingAnswer } from './binding.ts';
import { beforePlanning, checkAnswer, repaintAnswer } from './beforePlanning.ts';
import { lookedUpTo } from './check.ts';
import { isUnexplained, toldChance, unexplainedIn } from './fit.ts';
import { choose } from './decide.ts';
import { earlierReason } from './earlierReason.ts';
import { byPublishedRule, paintBeforeLeaving, settles } from './leaving.ts';
import { expectedFrom } from './expected.ts';
import type { PlanInput } from './input.ts';
import { type Insight, insightFrom } from './insight.ts';
import { reasonsFor } from './reasons.ts';
import { reviewOf } from './review.ts';
import { seatFirstAnswer } from './seatFirst.ts';
import { type Sight, sightOf } from './sight.ts';
import { warningsFor } from './warnings.ts';

/**
 * The recommended next movement: from every trial of this build and the mesh model, where to stand next, what should
 * be seen there and why. Pure and repeatable: the same trials give the same plan.
 * @returns a Problem that names the field where no such gear set can exist.
 */
export function plan(input: PlanInput): Result<PlanAnswer> {
  const sight = sightOf(input);
  if (!sight.ok) return sight;
  // Trials that contradict each other or a mark that tells nothing are seen without weighing a single axle.
  const before = beforeWeighing(input, sight.value);
  return ok(before ?? weighedPlan(insightFrom(input, sight.value), input));
}

/** The plan after everything that was read has been weighed: for who needs the insight too and must not pay it twice. */
export const planFrom = (insight: Insight, input: PlanInput): PlanAnswer =>
  beforeWeighing(input, insight.sight) ?? weighedPlan(insight, input);

const beforeWeighing = (input: PlanInput, { model }: Sight): PlanAnswer | undefined =>
  beforePlanning(input, model) ?? seatFirstAnswer(input);

function weighedPlan(insight: Insight, input: PlanInput): PlanAnswer {
  const looked = lookedUpTo(input) === input.trials.length;
  if (!looked && isUnexplained(insight, input)) return checkAnswer(input, unexplainedIn(input));
  const bound = bindingAnswer(insight, input);
  if (bound !== undefined) return bound;
  const weighed = choose(insight, input);
  const choice = byPublishedRule(insight, weighed, input) ?? weighed;
  const again = settles(choice, input) ? paintBeforeLeaving(input) : undefined;
  if (again !== undefined) return repaintAnswer(input, again);
  const { place } = choice.chosen;
  const review = reviewOf(input, insight.sight);
  return {
    decision: choice.decision,
    chance: toldChance(choice.chosen.chance, insight.misfit),
    look: [],
    pinionOut_mm: place.pinionOut,
    ringAway_mm: place.ringAway,
    expected: expectedFrom(insight, choice, input),
    reasons: [
      ...reasonsFor(insight, choice, input),
      ...earlierReason(insight, input),
      ...(review === undefined ? [] : [review]),
    ],
    warnings: warningsFor(insight, choice, input),
  };
}
