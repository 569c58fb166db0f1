import { z } from 'zod';
import {
  backlashBasisSchema,
  idSchema,
  lengthTypedSchema,
  nameSchema,
  orNone,
  torqueBasisSchema,
  torqueTypedSchema,
} from '../../basics/recorded.ts';
import { gaugeSeenSchema } from './gauge.ts';

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
