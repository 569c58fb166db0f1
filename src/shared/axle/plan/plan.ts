import { ok, type Result } from '../../basics/result.ts';
import type { PlanAnswer } from './answer.ts';
import { beforePlanning, checkAnswer } from './beforePlanning.ts';
import { toldChance, unexplained, unexplainedIn } from './fit.ts';
import { choose } from './decide.ts';
import { expectedFrom } from './expected.ts';
import type { PlanInput } from './input.ts';
import { insightFrom } from './insight.ts';
import { reasonsFor } from './reasons.ts';
import { reviewOf } from './review.ts';
import { sightOf } from './sight.ts';
import { warningsFor } from './warnings.ts';

/**
 * The recommended next movement: from every trial of this build and the mesh model, where to stand next, what should
 * be seen there and why. Pure and repeatable: the same trials give the same plan.
 * @returns a Problem that names the field where no such gear set can exist.
 */
export function plan(input: PlanInput): Result<PlanAnswer> {
  const sight = sightOf(input);
  if (!sight.ok) return sight;
  const before = beforePlanning(input, sight.value.model);
  if (before !== undefined) return ok(before);
  const insight = insightFrom(input, sight.value);
  if (insight.misfit > unexplained && input.trials.length > 1) return ok(checkAnswer(input, unexplainedIn(input)));
  const choice = choose(insight, input);
  const { place } = choice.chosen;
  const review = reviewOf(input, insight.sight);
  return ok({
    decision: choice.decision,
    chance: toldChance(choice.chosen.chance, insight.misfit),
    look: [],
    pinionOut_mm: place.pinionOut,
    ringAway_mm: place.ringAway,
    expected: expectedFrom(insight, choice, input),
    reasons: [...reasonsFor(insight, choice, input), ...(review === undefined ? [] : [review])],
    warnings: warningsFor(insight, choice, input),
  });
}
