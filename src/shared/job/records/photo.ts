import { z } from 'zod';
import { wordsSchema } from '../../basics/recorded.ts';

/** A photo is known by what is in it: two of the same bytes are one. */
export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/u);

/** A photo as it is stored: shrunk, and without what the camera wrote about time, place and owner. */
export const photoSchema = z.strictObject({
  sha256: sha256Schema,
  width: z.int().min(1).max(8192),
  height: z.int().min(1).max(8192),
});
export type StoredPhoto = z.infer<typeof photoSchema>;

/** How a photo came to the bench. */
export const photoWays = ['file', 'clipboard', 'folder', 'camera'] as const;
export type PhotoWay = (typeof photoWays)[number];

const fraction = z.number().min(-1).max(2);

/** A touch of the brush on the straightened flank, as fractions of it. */
const brushTouchSchema = z.strictObject({
  along: fraction,
  up: fraction,
  radius: z.number().positive().max(1),
  to: z.enum(['mark', 'compound']),
});

const pixelSchema = z.tuple([z.number(), z.number()]).readonly();
/** Toe-root, toe-crown, heel-crown, heel-root, in pixels of the stored photo. */
const flankCornersSchema = z.tuple([pixelSchema, pixelSchema, pixelSchema, pixelSchema]).readonly();

const bend = z.number().min(-1).max(1);

/**
 * From what a mark was read: the stored photo, the corners tapped in it, edges bent and cells brushed by hand. With the
 * code of that day anyone can read the same mark again.
 */
export const photoReadSchema = z.strictObject({
  photo: sha256Schema,
  flank: z.enum(['drive', 'coast']),
  /** Which of the places round the gear, the first being 0. */
  place: z.int().min(0).max(2),
  corners: flankCornersSchema,
  bends: z.strictObject({ toe: bend, heel: bend, crown: bend, root: bend }).optional(),
  brushed: z.array(brushTouchSchema).max(2000),
  /** Outlined by hand from the beginning: nothing was read by machine, or what was read was put aside. */
  fromEmpty: z.literal(true).optional(),
  /** What the build knew of the tooth's depth when the mark was read. */
  depth: z.enum(['uniform', 'tapered']).optional(),
  /** Share of the flank the mark covers. */
  area: z.number().min(0).max(1),
  warnings: z.array(wordsSchema).max(12),
});
export type PhotoRead = z.infer<typeof photoReadSchema>;
