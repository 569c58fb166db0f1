import { type SetInput, setInputSchema } from '../../../shared/axle/mesh/input.ts';
import { type PredictAnswer, predictSet } from '../../../shared/axle/mesh/predict.ts';
import { setRelations } from '../../../shared/axle/plan/setRelations.ts';
import { answerLines } from '../answerLines.ts';
import { told } from '../told.ts';
import type { Verb } from '../verb.ts';

const lineSchema = setInputSchema.superRefine(setRelations);

/** What the mesh model says of each gear set: angles, backlash and how the marks move with each shim. */
export const predict: Verb = {
  name: 'predict',
  ...told.predict,
  options: { in: { type: 'string' } },
  run: async (given, output) => answerLines<SetInput, PredictAnswer>(given, output, lineSchema, predictSet),
};
