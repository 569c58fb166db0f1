import { z } from 'zod';
import { depthPlaces } from '../arithmetic/depthShim.ts';
import { caseAdjustments } from '../makeUp.ts';
import { setInputSchema } from '../mesh/input.ts';
import { flankNames, markSchema } from '../mark/mark.ts';
import { roundGear, type SeenMark } from './roundGear.ts';
import type { Experience } from './experience.ts';
import { setRelations } from './setRelations.ts';

/** Free movement in one trial: over all stations, on the basis the limits are given on. 0 or less is a mesh that binds. */
const backlashSchema = z
  .strictObject({
    mean_mm: z.number().min(-5).max(5),
    min_mm: z.number().min(-5).max(5),
    max_mm: z.number().min(-5).max(5),
    U95_mm: z.number().min(0).max(1).optional(),
  })
  .refine(({ min_mm, mean_mm, max_mm }) => min_mm <= mean_mm && mean_mm <= max_mm, {
    error: 'min, mean and max are not in order',
    path: ['mean_mm'],
  });

/** One flank of a trial: one mark, or one for each place round the gear. */
const seenMarkSchema = z.union([
  markSchema,
  z.tuple([markSchema], markSchema).transform((marks): SeenMark => roundGear(marks)),
]);

/** One assembly with one set of shims: where it stood, counted from the first trial, and what it showed. */
export const trialSeenSchema = z.strictObject({
  pinionOut_mm: z.number().min(-10).max(10),
  ringAway_mm: z.number().min(-10).max(10),
  backlash: backlashSchema,
  pattern: z.strictObject({ drive: seenMarkSchema, coast: seenMarkSchema }),
  /** What a `check` asked to look at was looked at, and this trial and those before it are as told. */
  looked: z.boolean().optional(),
});

const backlashBasisSchema = z.strictObject({
  direction: z.enum(['along-rotation', 'square-to-tooth']),
  /** The heel, or a radius on the ring gear (mm), written either way. */
  at: z.union([z.literal('heel'), z.number().positive(), z.strictObject({ radius_mm: z.number().positive() })]),
});

const targetSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('new-set') }),
  z.strictObject({
    kind: z.literal('used-set'),
    drive: markSchema,
    coast: markSchema,
    backlash_mm: z.number().min(0).max(5).optional(),
  }),
]);

/** Where this axle has its shims, for words only: no sign and no amount depends on it. */
const placesSchema = z.strictObject({
  depth: z.enum(depthPlaces).optional(),
  sides: z.enum(caseAdjustments).optional(),
});

const step = z.number().positive().max(1);

/** What `plan` is asked (docs/command-line.md). Movements are totals since the build's first trial. */
export const planInputSchema = z.strictObject({
  set: setInputSchema.extend({ driveFlank: z.enum(flankNames) }).superRefine(setRelations),
  backlashBasis: backlashBasisSchema,
  limits: z.strictObject({
    backlash_mm: z
      .tuple([z.number().min(0).max(5), z.number().min(0).max(5)])
      .refine(([low, high]) => low < high, { error: 'the lower limit is not below the upper one' }),
  }),
  target: targetSchema,
  shimStep_mm: z.strictObject({ pinion: step, side: step }),
  places: placesSchema.optional(),
  trials: z.array(trialSeenSchema).min(1).max(40),
});

export type PlanInput = Omit<Readonly<z.infer<typeof planInputSchema>>, 'trials'> & {
  readonly trials: readonly TrialSeen[];
  /** What earlier builds of the shop have taught; it comes from their notebooks and never from a file. */
  readonly experience?: Experience;
};
export type TrialSeen = Omit<Readonly<z.infer<typeof trialSeenSchema>>, 'pattern'> & {
  readonly pattern: Readonly<Record<Side, SeenMark>>;
};
export type PlanTarget = Readonly<z.infer<typeof targetSchema>>;
export type Places = Readonly<z.infer<typeof placesSchema>>;
export type BacklashBasis = Readonly<z.infer<typeof backlashBasisSchema>>;

/** Drive and coast: which flank is which follows from the set's `driveFlank`. */
export const sides = ['drive', 'coast'] as const;
export type Side = (typeof sides)[number];
