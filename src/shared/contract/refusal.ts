import type { z } from 'zod';
import type { Problem } from '../basics/result.ts';
import './shapeWords.ts';

/** A person mends one field after the other; a list of a thousand faults is none. */
const mostFaults = 5;

/** "makeUp.ringTeeth": where in what was sent the first fault lies. */
export const fieldOf = (error: z.ZodError): string => error.issues[0]?.path.map(String).join('.') ?? '';

/** The first faults of a refused shape in one line, each with its field, and how many more there are. */
export function wordsOf(error: z.ZodError): string {
  const { issues } = error;
  const first = issues
    .slice(0, mostFaults)
    .map(({ path, message }) => `${path.map(String).join('.') || 'the whole'}: ${message}`);
  return issues.length <= mostFaults
    ? first.join('; ')
    : `${first.join('; ')}; and ${issues.length - mostFaults} more faults`;
}

/** A refused shape as a Problem with the field named. */
export const refusal = (error: z.ZodError, what: string): Problem => ({
  kind: 'refused',
  field: fieldOf(error),
  sentence: `${what}: ${wordsOf(error)}.`,
  remedy: 'Correct the field named and send it again.',
});
