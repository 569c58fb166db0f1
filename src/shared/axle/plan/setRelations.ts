import type { z } from 'zod';
import { checkSetInput, type SetInput, setInputSchema } from '../mesh/input.ts';

/** For a boundary's schema: fields that are each plausible but make no gear set together, with the wrong one named. */
export function setRelations(set: SetInput, context: z.RefinementCtx): void {
  if (!setInputSchema.strip().safeParse(set).success) return;
  const checked = checkSetInput(setInputSchema.strip().parse(set));
  if (checked.ok) return;
  const { field = 'set', sentence } = checked.problem;
  const said = sentence.replace(`${field}: `, '').replace(/\.$/u, '');
  context.addIssue({ code: 'custom', path: [field], message: said });
}
