import { z } from 'zod';
import { bearingStates } from '../basics/recorded.ts';
import { makeUpSchema } from '../axle/makeUp.ts';
import { markSchema } from '../axle/mark/mark.ts';
import { checkIds, phases } from '../job/records/checkIds.ts';
import { howSchema, resultSchema } from '../job/records/measurement.ts';
import { specSheetSchema } from '../job/records/specSheet.ts';
import { doneSchema, problemSchema, question } from './message.ts';

const packsSchema = z.strictObject({ pinionDepth: z.number(), ringSide: z.number(), oppositeSide: z.number() });
export type SimulatedPacks = z.infer<typeof packsSchema>;

/** A rendered photo of a screen's size, in base64. */
const largestPhoto_letters = 2_000_000;

/** How the axle on the simulated stand is put together; packs that are not known yet are those of the scenario. */
const simulatedAssemblySchema = z.strictObject({
  phase: z.enum(phases),
  number: z.int().min(1),
  bearings: z.enum(bearingStates),
  seal: z.enum(['in', 'out']),
  packs_mm: packsSchema.optional(),
  /** How far the pinion nut was turned since the bearings all but touched; without it the sleeve is as the scenario crushed it. */
  nutTurned_deg: z.number().min(0).max(3600).optional(),
});
export type SimulatedAssembly = z.infer<typeof simulatedAssemblySchema>;

/** One motion of the simulated hand, on the axle as it is put together; without `on` it stays as it was. */
const on = simulatedAssemblySchema.optional();
const handActionSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('rock'), stations: z.int().min(1).max(24), on }),
  z.strictObject({
    do: z.literal('turn-ring'),
    surface: z.enum(['ring-gear', 'flange']),
    /** Pauses at so many equal places; without it the turn is continuous. */
    stations: z.int().min(3).max(60).optional(),
    on,
  }),
  z.strictObject({ do: z.literal('push-case'), on }),
  z.strictObject({ do: z.literal('turn-pinion'), what: z.enum(['pinion', 'total']), on }),
]);
export type HandAction = z.infer<typeof handActionSchema>;

const simulatedAxleSchema = z.strictObject({ makeUp: makeUpSchema, specSheet: specSheetSchema });
export type SimulatedAxle = z.infer<typeof simulatedAxleSchema>;

export const benchQuestions = {
  'bench.about': question(
    z.strictObject({}),
    z.strictObject({
      version: z.string(),
      dataFolder: z.string(),
      simulated: z.boolean(),
      /** Whether it is ended from the screens; otherwise it ends with its window. */
      mayEnd: z.boolean(),
      /** A simulated bench can be opened beside this one, on request. */
      canSimulate: z.boolean(),
      /** Who this data folder is, and by what its signature is known again. */
      bench: z.strictObject({ id: z.string(), name: z.string(), fingerprint: z.string() }),
      /** What stands on the simulated bench, to be filled in where a newcomer would have to invent it. */
      simulatedAxle: simulatedAxleSchema.optional(),
      /** Things the person should know at once: a database from a newer version, a thinned journal. */
      warnings: z.array(problemSchema),
    }),
  ),
  /** Writes a file for whoever is to find out what went wrong: version, machine, ports, last events; no names of people. */
  'bench.report': question(z.strictObject({}), z.strictObject({ file: z.string(), folder: z.string() })),
  /** Ends the bench, where it may be ended from the screens; every page is told first. */
  'bench.end': question(z.strictObject({}), doneSchema),
  /** Opens a simulated bench with records of its own beside this one, and says where. Asked again it says the same. */
  'bench.simulate': question(z.strictObject({}), z.strictObject({ link: z.string().max(300) })),
  /** Simulated bench only: lets the simulated hand do one motion on the axle twin. */
  'bench.hand': question(z.strictObject({ action: handActionSchema }), doneSchema),
  /** Simulated bench only: paints the teeth of the axle twin, rolls them under drag, and says what the compound shows. */
  'bench.teeth': question(
    z.strictObject({ on: simulatedAssemblySchema }),
    z.strictObject({ drive: markSchema, coast: markSchema }),
  ),
  /** Simulated bench only: what somebody at the stand would read off a tool, or see; nothing for what a gauge sends. */
  'bench.read-off': question(
    z.strictObject({
      on: simulatedAssemblySchema,
      check: z.enum(checkIds),
      /** The packs of the trial before, in mm, where this assembly has none yet. */
      before: packsSchema.optional(),
    }),
    z.strictObject({ read: z.strictObject({ how: howSchema, result: resultSchema }).optional() }),
  ),
  /** Simulated bench only: a photo of a flank of the twin, painted and rolled. */
  'bench.photo': question(
    z.strictObject({ on: simulatedAssemblySchema, side: z.enum(['drive', 'coast']) }),
    z.strictObject({ jpeg_base64: z.string().max(largestPhoto_letters) }),
  ),
} as const;

export const benchTopics = {
  /** What stands wrong with the bench itself, whenever that changes. */
  'bench-warnings': z.array(problemSchema),
  /** The bench ends now, because a person asked for it. */
  'bench-ends': z.strictObject({}),
  /** A defect of the program that was just met and survived. */
  'bench-fault': problemSchema,
} as const;
