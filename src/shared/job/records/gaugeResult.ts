import { z } from 'zod';
import { backlashBasisSchema, orNone, torqueBasisSchema } from '../../basics/recorded.ts';

const number = orNone(z.number());
const flags = z.array(z.string());
/** Named parts of a standard uncertainty, so that anyone can add them up again. */
const parts = z.array(z.strictObject({ name: z.string(), u: z.number().min(0), nu: z.number().positive().optional() }));

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

export const backlashResultSchema = z.strictObject({
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

export const runoutResultSchema = z.strictObject({
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
  /** `read-once`: one number read off a dial and typed, whatever it averaged over. */
  average: z.enum(['whole-turns', 'part-turn', 'time', 'read-once']),
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
export const playResultSchema = z.strictObject({
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
