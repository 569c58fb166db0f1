import { z } from 'zod';
import { lengthTypedSchema } from '../../basics/recorded.ts';
import { shimPlaces } from '../../axle/makeUp.ts';
import { markSchema } from '../../axle/mark/mark.ts';

/** What should be read once the axle is together again; each mark carries how sure its place is (U95). */
export const expectedSchema = z.strictObject({
  backlash: z.strictObject({ mean_mm: z.number(), min_mm: z.number(), max_mm: z.number(), U95_mm: z.number().min(0) }),
  /** Absent where the ring gear is moved for its backlash before anything was painted. */
  drive: markSchema.optional(),
  coast: markSchema.optional(),
  /** Whether the place along the face is promised too: only with the cut known. */
  lengthwise: z.boolean(),
});
export type ExpectedSeen = z.infer<typeof expectedSchema>;

/** One place where a pack is changed. */
const swapLineSchema = z.strictObject({
  place: z.enum(shimPlaces),
  /** The pack that comes out, as it was measured. */
  out: lengthTypedSchema,
  /** Thickness of the pack that goes in. */
  wanted_mm: z.number().positive().max(20),
});
export type SwapLine = z.infer<typeof swapLineSchema>;

/** What is changed before the next trial, who chose it, and what should be seen then. Movements count from the trial it starts at. */
export const swapSchema = z.strictObject({
  chosenBy: z.enum(['plan', 'own']),
  pinionOut_mm: z.number().min(-10).max(10),
  ringAway_mm: z.number().min(-10).max(10),
  lines: z.array(swapLineSchema).max(4),
  /** Threaded adjusters: notches, away from the pinion positive. */
  notches: z.int().min(-200).max(200).optional(),
  expected: expectedSchema,
});
export type SwapPlanned = z.infer<typeof swapSchema>;
