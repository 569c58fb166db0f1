import { z } from 'zod';
import {
  backlashBasisSchema,
  idSchema,
  lengthTypedSchema,
  nameSchema,
  orNone,
  quantityTypedSchema,
  torqueBasisSchema,
  torqueTypedSchema,
  wordsSchema,
} from '../../basics/recorded.ts';
import { gaugeSeenSchema } from './gauge.ts';
import { shimPlaces } from '../../axle/makeUp.ts';
import { markResultSchema } from './markResult.ts';

export type { MarkResult } from './markResult.ts';

const number = orNone(z.number());
const flags = z.array(z.string());
/** Named parts of a standard uncertainty, so that anyone can add them up again. */
const parts = z.array(z.strictObject({ name: z.string(), u: z.number(), nu: z.number().optional() }));

const stationResultSchema = z.strictObject({
  number: z.int().positive(),
  gearAngle_deg: z.number().optional(),
  value_mm: number,
  rocks: z.int().min(0),
  /** Each rock as it was counted; records of before they were kept have none. */
  each_mm: z.array(z.number()).max(1000).optional(),
  sd_mm: number,
  u_mm: number,
  U95_mm: number,
  flags,
  parts,
  /** Why it was refused or flagged, for the technician. */
  why: z.string().optional(),
});
export type StationResult = z.infer<typeof stationResultSchema>;

const backlashResultSchema = z.strictObject({
  kind: z.literal('backlash'),
  basis: backlashBasisSchema,
  stations: z.array(stationResultSchema).min(1).max(200),
  mean_mm: number,
  /** Records of before it was computed have none. */
  meanU95_mm: number.optional(),
  min_mm: number,
  max_mm: number,
  variation_mm: number,
  variationU95_mm: number.optional(),
});
export type BacklashResult = z.infer<typeof backlashResultSchema>;

const runoutResultSchema = z.strictObject({
  kind: z.literal('runout'),
  tir_mm: number,
  /** None where the angles of the readings are not known. */
  harmonics: orNone(
    z.array(z.strictObject({ order: z.int(), amplitude_mm: z.number(), highSpot_deg: z.number(), u_mm: z.number() })),
  ),
  residual_mm: number,
  /** Readings at the stations, where the hand paused; empty for a continuous turn. */
  stations: z.array(z.strictObject({ number: z.int(), angle_deg: z.number().optional(), value_mm: z.number() })),
  missAtWorst_mm: number,
  shape: z.enum(['eccentric', 'burr', 'warp', 'mixed', 'unknown']),
  /** Where a burr stands and by how much; below its surroundings is negative. */
  burr: z.strictObject({ angle_deg: z.number(), height_mm: z.number() }).optional(),
  u_mm: number,
  U95_mm: number,
  flags,
  parts,
});
export type RunoutResult = z.infer<typeof runoutResultSchema>;

export const torqueResultSchema = z.strictObject({
  kind: z.literal('torque'),
  basis: torqueBasisSchema,
  running_Nm: number,
  breakaway_Nm: number,
  breakawayU95_Nm: number,
  /** What that U95 is made of; records of before it was kept have none. */
  breakawayParts: parts.optional(),
  ripple_Nm: number,
  /** Change while turning, by a straight line: bearings that seat. */
  drift_Nm: number,
  average: z.enum(['whole-turns', 'part-turn', 'time']),
  /** Whole turns averaged over, where turns are known. */
  turns: z.int().min(0),
  /** What the gauge read at rest, taken off every reading; records of before that was done have none. */
  zero_Nm: number.optional(),
  u_Nm: number,
  U95_Nm: number,
  flags,
  parts,
});
export type TorqueResult = z.infer<typeof torqueResultSchema>;

/** Play by an indicator, from a push to a pull and back; or the spread of a case, from one rest to another: then one stroke. */
const playResultSchema = z.strictObject({
  kind: z.literal('play'),
  value_mm: number,
  /** Pushes with a pull of their own. */
  strokes: z.int().min(0),
  sd_mm: z.number(),
  u_mm: z.number(),
  U95_mm: z.number(),
  flags,
  parts,
  /** Why it was refused or flagged, for the technician. */
  why: z.string().optional(),
});
export type PlayResult = z.infer<typeof playResultSchema>;

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

const rowsSchema = z.strictObject({ from: z.int().min(0), to: z.int().min(0) });

/**
 * The stretch of a journal a measurement rests on: row numbers, both included, of the bench that took them; where none is
 * named, the one that wrote the entry. In `breaks` nobody listened (another screen was looked at, the bench ended): those
 * rows are no part of it, and the station at work was begun anew.
 */
export const stretchSchema = z.strictObject({
  bench: idSchema.optional(),
  gauge: idSchema,
  ...rowsSchema.shape,
  breaks: z.array(rowsSchema).max(1000).optional(),
});
export type Stretch = z.infer<typeof stretchSchema>;
type Rows = z.infer<typeof rowsSchema>;

/** The rows of a stretch in which somebody listened, in order. */
export function partsOf({ from, to, breaks = [] }: Stretch): readonly Rows[] {
  const inOrder = breaks.toSorted((a, b) => a.from - b.from);
  const begins = [from, ...inOrder.map((one) => one.to + 1)];
  const ends = [...inOrder.map((one) => one.from - 1), to];
  return begins.flatMap((begin, index) => {
    const end = ends[index] ?? to;
    return begin > end ? [] : [{ from: begin, to: end }];
  });
}

/**
 * How the stem of the indicator stood for a backlash, as far as the technician says. Bounds are half-widths (±). Without
 * it the stem is taken to have stood as the basis wants it.
 */
const stemSchema = z.strictObject({
  /** It slides on the flank, or goes along with one fixed point (a ball, a bolt head). */
  tip: z.enum(['rides-flank', 'follows-point']),
  /** How far it stood off the direction of the basis. */
  off_deg: z.number().min(0).max(45),
  offWithin_deg: z.number().positive().max(30).optional(),
  radius_mm: z.number().positive().optional(),
  radiusWithin_mm: z.number().positive().optional(),
});
export type StemSaid = z.infer<typeof stemSchema>;

/** How a streamed measurement is taken; the gauge's own figures come from its record, never from the screen. */
export const captureSettingsSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('backlash'),
    basis: backlashBasisSchema,
    stations: z.int().min(1).max(60).optional(),
    nextBy: z.enum(['itself', 'press']),
    stem: stemSchema.optional(),
  }),
  z.strictObject({
    kind: z.literal('runout'),
    mode: z.enum(['continuous', 'stations']),
    stations: z.int().min(3).max(60).optional(),
    /**
     * How much further on, clockwise looking at the teeth, the place under the indicator is than the tooth in mesh. None
     * when nobody knows; absent when nobody was asked.
     */
    fromMesh_deg: orNone(z.number().min(0).max(360)).optional(),
    /** Distance of the stem from the axis of the ring gear: a face that wobbles moves more further out. */
    radius_mm: z.number().positive().optional(),
  }),
  z.strictObject({ kind: z.literal('torque'), basis: torqueBasisSchema }),
  z.strictObject({ kind: z.literal('play') }),
  /** Two rests, told apart by a press at each: how far a case spreads under its preload. */
  z.strictObject({ kind: z.literal('spread') }),
]);
export type CaptureSettings = z.infer<typeof captureSettingsSchema>;
export type CaptureSettingsOf<Kind extends CaptureSettings['kind']> = Extract<CaptureSettings, { kind: Kind }>;

/**
 * How the figures came about. `streamed` rests on journal readings; `typed` was read off a tool that sends
 * nothing and is marked as typed wherever it appears; `seen` is the technician's own observation.
 */
export const howSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('streamed'),
    gauge: gaugeSeenSchema,
    stretch: stretchSchema,
    settings: captureSettingsSchema,
  }),
  z.strictObject({
    kind: z.literal('typed'),
    tool: nameSchema,
    resolution: z.union([lengthTypedSchema, torqueTypedSchema]),
    gauge: gaugeSeenSchema.optional(),
  }),
  z.strictObject({ kind: z.literal('seen') }),
]);
export type How = z.infer<typeof howSchema>;
