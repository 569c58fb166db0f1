import { z } from 'zod';
import { markSchema } from '../../axle/mark/mark.ts';
import { orNone, wordsSchema } from '../../basics/recorded.ts';
import { photoReadSchema } from './photo.ts';

/** The marks of one more place round the gear. */
const placeSchema = z.strictObject({ drive: orNone(markSchema), coast: orNone(markSchema) });

/** The painted mark on both flanks and what the technician decides from it. */
export const markResultSchema = z.strictObject({
  kind: z.literal('mark'),
  drive: orNone(markSchema),
  coast: orNone(markSchema),
  /** Further places round the gear; the first one is the one to go by. */
  others: z.array(placeSchema).max(2).optional(),
  judgement: z.enum(['accepted', 'change', 'recorded']),
  compound: wordsSchema.optional(),
  note: wordsSchema.optional(),
  /** What was read off photos, and how. */
  photos: z.array(photoReadSchema).max(6).optional(),
});
export type MarkResult = z.infer<typeof markResultSchema>;
export type MarkPlace = z.infer<typeof placeSchema>;

/** Every place that was read, the one to go by first. */
export const markPlaces = ({ drive, coast, others = [] }: MarkResult): readonly MarkPlace[] => [
  { drive, coast },
  ...others,
];
