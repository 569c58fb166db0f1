import { z } from 'zod';
import { idSchema } from '../basics/recorded.ts';

/** One row of the journal as it is heard live. */
export const heardSchema = z.union([
  z.strictObject({
    seq: z.int().min(0),
    gauge: idSchema,
    t: z.number(),
    /** As received, in `unit` (UCUM). */
    value: z.number(),
    unit: z.string(),
  }),
  /** A pedal belongs to no gauge: it is heard by whatever is being measured. */
  z.strictObject({ seq: z.int().min(0), t: z.number(), press: z.enum(['next', 'again']) }),
  z.strictObject({
    seq: z.int().min(0),
    gauge: idSchema,
    t: z.number(),
    none: z.string(),
    raw: z.string().max(400).optional(),
  }),
]);
export type Heard = z.infer<typeof heardSchema>;
