import type { PlanAnswer } from '../../../shared/setup/plan/answer.ts';
import { type PlanInput, planInputSchema } from '../../../shared/setup/plan/input.ts';
import { plan as planFor } from '../../../shared/setup/plan/plan.ts';
import type { Verb } from '../verb.ts';
import { answerLines } from '../answerLines.ts';

/** The next movement for each build: one object a line with its trials so far, one plan a line. */
export const plan: Verb = {
  name: 'plan',
  usage: 'plan --in FILE.jsonl',
  summary: 'which shim to change, by how much, and what should be seen then',
  options: { in: { type: 'string' } },
  run: async (given, output) => answerLines<PlanInput, PlanAnswer>(given, output, planInputSchema, planFor),
};
