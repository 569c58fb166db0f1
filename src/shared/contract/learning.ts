import { z } from 'zod';
import { lineFormatSchema } from '../gauges/lineFormat.ts';
import { idSchema } from '../basics/recorded.ts';
import { question } from './message.ts';

/** One listening with one set of settings; without `heard` it has just begun. */
const attemptSchema = z.strictObject({
  link: z.string().max(400),
  heard: z
    .strictObject({ bytes: z.int().min(0), likeText: z.number().min(0).max(1), sample: z.string().max(1000) })
    .optional(),
});
export type AttemptHeard = z.infer<typeof attemptSchema>;

/** What was learned of a gauge's lines, to be confirmed by a person. */
const learnedSchema = z.strictObject({
  link: z.string().max(400),
  format: lineFormatSchema,
  sure: z.boolean(),
  /** In words. */
  doubts: z.array(z.string()),
  samples: z.array(z.strictObject({ raw: z.string(), value: z.number(), unit: z.string() })),
  attempts: z.array(attemptSchema),
  alternatives: z.array(lineFormatSchema),
});
export type LearnedAnswer = z.infer<typeof learnedSchema>;

export const learnQuestions = {
  /** Listens for so long while the spindle is moved. `gauge` is put away first: a port is opened once. */
  'gauges.learn': question(
    z.strictObject({ gauge: idSchema.optional(), link: z.string().max(400), seconds: z.number().min(1).max(120) }),
    learnedSchema,
  ),
} as const;

export const learnTopics = {
  /** Each attempt when it begins and when it is over: nothing is tried unseen. */
  learning: attemptSchema,
} as const;
