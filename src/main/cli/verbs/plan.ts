import type { PlanAnswer } from '../../../shared/axle/plan/answer.ts';
import { type PlanInput, planInputSchema } from '../../../shared/axle/plan/input.ts';
import { plan as planFor } from '../../../shared/axle/plan/plan.ts';
import { told } from '../told.ts';
import type { Verb } from '../verb.ts';
import { answerLines } from '../answerLines.ts';

/** The next movement for each build: one object a line with its trials so far, one plan a line. */
export const plan: Verb = {
  name: 'plan',
  ...told.plan,
  options: { in: { type: 'string' } },
  run: async (given, output) => answerLines<PlanInput, PlanAnswer>(given, output, planInputSchema, planFor),
};
