import { z } from 'zod';
import { doneSchema, problemSchema, question } from './message.ts';

export const handActionSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('rock'), stations: z.int().min(1).max(24) }),
  z.strictObject({ do: z.literal('turn-ring'), surface: z.enum(['ring-gear', 'flange']) }),
  z.strictObject({ do: z.literal('turn-pinion'), what: z.enum(['pinion', 'total']) }),
]);
export type HandAction = z.infer<typeof handActionSchema>;

export const benchQuestions = {
  'bench.about': question(
    z.strictObject({}),
    z.strictObject({
      version: z.string(),
      dataFolder: z.string(),
      simulated: z.boolean(),
      /** Things the person should know at once: a database from a newer version, a thinned journal. */
      warnings: z.array(problemSchema),
    }),
  ),
  /** Simulated bench only: lets the simulated hand do one motion on the axle twin. */
  'bench.hand': question(z.strictObject({ action: handActionSchema }), doneSchema),
} as const;
