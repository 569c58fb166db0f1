import { z } from 'zod';

/** A Problem on the wire. */
export const problemSchema = z.strictObject({
  kind: z.string(),
  sentence: z.string(),
  remedy: z.string(),
  field: z.string().optional(),
});

const resultOf = <T extends z.ZodType>(value: T) =>
  z.discriminatedUnion('ok', [
    z.strictObject({ ok: z.literal(true), value }),
    z.strictObject({ ok: z.literal(false), problem: problemSchema }),
  ]);

/** One question the renderer can ask and the shape of what comes back. */
interface Question<Ask extends z.ZodType = z.ZodType, Answer extends z.ZodType = z.ZodType> {
  readonly ask: Ask;
  readonly answer: Answer;
}
export const question = <Ask extends z.ZodType, Answer extends z.ZodType>(
  ask: Ask,
  answer: Answer,
): Question<Ask, Answer> => ({ ask, answer });

/** The largest message a renderer sends, in bytes: a stored photo as base64 and what goes with it. */
export const largestMessage_bytes = 4 * 1024 * 1024;

/** What travels from renderer to bench. */
export const askMessageSchema = z.strictObject({
  id: z.int().min(0),
  ask: z.string().max(80),
  with: z.unknown().optional(),
});

/** Who is to be answered, of a message that has no known shape otherwise. */
export const addressSchema = z.object({ id: z.int().min(0) });

/** What travels back: the answer to one question, or news on a topic. */
export const backMessageSchema = z.union([
  z.strictObject({ id: z.int().min(0), result: resultOf(z.unknown()) }),
  z.strictObject({ topic: z.string().max(80), news: z.unknown() }),
]);

/** "Nothing to say" as an answer; undefined does not survive every transport. */
export const doneSchema = z.strictObject({ done: z.literal(true) });
export const done = { done: true } as const;
