import type { z } from 'zod';
import { wordsOf } from '../../shared/contract/refusal.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/**
 * A record on its way into the database: only what its own schema takes can be read again, so nothing else is written.
 * @param what it is called in the sentence: "This entry".
 */
export function writable<T>(schema: z.ZodType<T>, record: unknown, what: string): Result<T> {
  // Through JSON, because that is what is stored: what JSON drops or bends is seen here.
  const checked = schema.safeParse(JSON.parse(JSON.stringify(record)));
  if (checked.success) return ok(checked.data);
  return fail({
    kind: 'not-writable',
    sentence: `${what} cannot be written, because it could not be read again: ${wordsOf(checked.error)}.`,
    remedy: 'Nothing was changed. Take it again.',
  });
}

/** A record as it lies in the database. Another program, a later version or a bad disk may have written it. */
export function readable<T>(schema: z.ZodType<T>, stored: () => unknown, what: string | (() => string)): Result<T> {
  // Only what cannot be read needs its name.
  const called = (): string => (typeof what === 'string' ? what : what());
  try {
    const checked = schema.safeParse(stored());
    return checked.success ? ok(checked.data) : fail(unreadable(called(), wordsOf(checked.error)));
  } catch {
    return fail(unreadable(called(), 'it is not JSON'));
  }
}

export const unreadable = (what: string, why: string): Problem => ({
  kind: 'unreadable',
  sentence: `${what} cannot be read: ${why}.`,
  remedy: 'It is left as it is and everything else works. A newer program may be able to read it, or a backup.',
});

/** Takes note of a row that cannot be read, by a name of the row; the others are read all the same. */
export type Skip = (row: string, problem: Problem) => void;
