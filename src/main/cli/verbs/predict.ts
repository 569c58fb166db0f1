import { checkSetInput, type SetInput, setInputSchema } from '../../../shared/gears/input.ts';
import { predictSet } from '../../../shared/gears/predict.ts';
import type { Verb } from '../verb.ts';
import { answerLines } from '../answerLines.ts';

/** A set whose fields fit each other too: those faults name their line like any other. */
const lineSchema = setInputSchema.superRefine((set, context) => {
  const checked = checkSetInput(set);
  if (checked.ok) return;
  context.addIssue({ code: 'custom', path: [checked.problem.field ?? 'set'], message: checked.problem.sentence });
});

/** What the mesh model says of each gear set: angles, backlash and how the marks move with each shim. */
export const predict: Verb = {
  name: 'predict',
  usage: 'predict --in FILE.jsonl',
  summary: 'what each gear set is and what shims do to its backlash and marks',
  options: { in: { type: 'string' } },
  run: async (given, output) => answerLines<SetInput, object>(given, output, lineSchema, predictSet),
};
