import { z } from 'zod';
import { lengthTypedSchema, nameSchema, quantityTypedSchema, wordsSchema } from '../../basics/recorded.ts';
import { shimPlaces } from '../../axle/makeUp.ts';
import { backlashResultSchema, playResultSchema, runoutResultSchema, torqueResultSchema } from './gaugeResult.ts';
import { markResultSchema } from './markResult.ts';

export type { BacklashResult, PlayResult, RunoutResult, StationResult, TorqueResult } from './gaugeResult.ts';
export { torqueResultSchema } from './gaugeResult.ts';
export type { CaptureSettings, CaptureSettingsOf, How, StemSaid, Stretch } from './how.ts';
export { captureSettingsSchema, howSchema, partsOf, stretchSchema } from './how.ts';
export type { MarkResult } from './markResult.ts';

/** A single typed quantity: end play, case spread, fastener torque, depth-tool reading. Its U95 follows from the tool's resolution. */
const quantityResultSchema = z.strictObject({
  kind: z.literal('quantity'),
  value: quantityTypedSchema,
});

/** A feeler of this thickness was offered to a joint and went in or did not. */
const feelerResultSchema = z.strictObject({
  kind: z.literal('feeler'),
  thickness: lengthTypedSchema,
  entered: z.boolean(),
  places: z.int().min(1).max(12),
});

/** The set numbers cut on pinion and ring gear; a set is replaced only as a pair. */
const setNumbersResultSchema = z.strictObject({
  kind: z.literal('set-numbers'),
  pinion: nameSchema,
  ringGear: nameSchema,
});

/** Shims of one place: each shim as measured, and the pack as clamped, which is what counts. */
export const shimPackSchema = z.strictObject({
  place: z.enum(shimPlaces),
  each: z.array(lengthTypedSchema).max(20),
  pack: lengthTypedSchema,
});
export type ShimPack = z.infer<typeof shimPackSchema>;

const shimsResultSchema = z.strictObject({ kind: z.literal('shims'), packs: z.array(shimPackSchema).max(8) });

/** What keeps a nut or bolts from turning back. */
export const lockings = ['staked', 'pinned', 'self-locking', 'thread-locker', 'lock-plates'] as const;
export type Locking = (typeof lockings)[number];

/** How much oil went in, in the unit of the can (UCUM: litre, US quart, US pint); shown as it was entered. */
export const oilUnits = ['L', '[qt_us]', '[pt_us]'] as const;
const oilSchema = z.strictObject({
  /** Kind and grade as the maker names it. */
  name: nameSchema,
  amount: z.strictObject({ value: z.number().positive().max(200), unit: z.enum(oilUnits) }).optional(),
});
export type Oil = z.infer<typeof oilSchema>;

/** Something looked at and confirmed, or not: case bearings without play, new crush sleeve fitted, locks in place. */
const confirmedResultSchema = z.strictObject({
  kind: z.literal('confirmed'),
  yes: z.boolean(),
  /** What keeps it from turning back, where that was asked. */
  lockedBy: z.enum(lockings).optional(),
  /** Bolts counted, each at full torque. */
  counted: z.int().min(1).max(60).optional(),
  oil: oilSchema.optional(),
  note: wordsSchema.optional(),
});
export type ConfirmedResult = z.infer<typeof confirmedResultSchema>;

/**
 * Notches of threaded adjusters, counted: where both stood as found (from where the thread lets go), or the preload past zero
 * play. What a notch moves stands beside it as it was known then; nothing where nobody knew.
 */
const notchesResultSchema = z.strictObject({
  kind: z.literal('notches'),
  ringSide: z.int().min(0).max(2000),
  oppositeSide: z.int().min(0).max(2000),
  each_mm: z.number().positive().optional(),
});
export type NotchesResult = z.infer<typeof notchesResultSchema>;

export const resultSchema = z.discriminatedUnion('kind', [
  notchesResultSchema,
  backlashResultSchema,
  runoutResultSchema,
  torqueResultSchema,
  playResultSchema,
  quantityResultSchema,
  feelerResultSchema,
  setNumbersResultSchema,
  shimsResultSchema,
  confirmedResultSchema,
  markResultSchema,
]);
export type MeasuredResult = z.infer<typeof resultSchema>;
