import { z } from 'zod';
import { mm, seconds } from '../basics/quantity.ts';
import { idSchema } from '../basics/recorded.ts';
import { checkIds } from '../job/records/checkIds.ts';
import { captureSettingsSchema, stretchSchema } from '../job/records/measurement.ts';
import type { Refusal } from '../measuring/backlash/measured.ts';
import { doneSchema, question } from './message.ts';

const length = z.number().transform(mm);
const time = z.number().transform(seconds);
const refusals = [
  'drift',
  'not-held',
  'end-of-travel',
  'one-sided',
  'not-repeatable',
  'unit-jump',
  'gap',
] as const satisfies readonly Refusal[];

/** A station as measuring has it, in mm and in seconds of the bench's run that heard it. */
const stationSchema = z.strictObject({
  value: z.union([length, z.strictObject({ none: z.enum(refusals) })]),
  rocks: z.int().min(0),
  sd: length,
  u: length,
  U95: length,
  flags: z.array(z.enum([...refusals, 'correlated-noise'])),
  parts: z.array(z.strictObject({ name: z.string(), u: z.number(), nu: z.number().exactOptional() })),
  from_t: time,
  to_t: time,
  why: z.string().exactOptional(),
});

const which = { assembly: idSchema, check: z.enum(checkIds) };

/** A measurement that was begun and not recorded: where its readings lie and how it is taken. */
export const unfinishedSchema = z.strictObject({ stretch: stretchSchema, settings: captureSettingsSchema });
export type Unfinished = z.infer<typeof unfinishedSchema>;

/** Of a backlash the stations that are done. What else was begun is drawn again from its readings, which `gauges.heard` gives. */
const foundSchema = z.strictObject({ ...unfinishedSchema.shape, stations: z.array(stationSchema).max(200) });
export type UnfinishedFound = z.infer<typeof foundSchema>;

export const unfinishedQuestions = {
  /** Notes how far a measurement has come; the last note counts. Recording it takes the note away. */
  'unfinished.note': question(z.strictObject({ ...which, ...unfinishedSchema.shape }), doneSchema),
  /** What was begun and not recorded, its stations worked out anew from the journal; empty where there is none. */
  'unfinished.find': question(z.strictObject(which), z.strictObject({ found: foundSchema.optional() })),
  'unfinished.forget': question(z.strictObject(which), doneSchema),
} as const;
