import type { z } from 'zod';
import type { Problem } from '../basics/result.ts';

/** "makeUp.ringTeeth": where in what was sent the first fault lies. */
export const fieldOf = (error: z.ZodError): string => error.issues[0]?.path.map(String).join('.') ?? '';

/** All faults of a refused shape in one line, each with its field. */
export const wordsOf = (error: z.ZodError): string =>
  error.issues.map((issue) => `${issue.path.map(String).join('.') || 'the whole'}: ${issue.message}`).join('; ');

/** A refused shape as a Problem with the field named. */
export const refusal = (error: z.ZodError, what: string): Problem => ({
  kind: 'refused',
  field: fieldOf(error),
  sentence: `${what}: ${wordsOf(error)}.`,
  remedy: 'Correct the field named and send it again.',
});
