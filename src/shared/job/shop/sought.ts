import { z } from 'zod';
import { idSchema, textSchema } from '../../basics/recorded.ts';

/** Which builds a list shows. */
export const whiches = [
  'on-the-bench',
  'put-away',
  'thrown-away',
  /** On the bench, without a certificate of what was read last, or with one that lacks something. */
  'unfinished',
  /** With a certificate that says all there is: one that went on after it, or lacked something, is unfinished. */
  'certified',
  /** Heard on the road after the certificate, and not begun again. */
  'comeback-due',
] as const;
export type Which = (typeof whiches)[number];

/** What another build may have in common with one. */
export const alikes = ['axle', 'customer', 'set'] as const;
export type Alike = (typeof alikes)[number];

/** What is looked for among the builds; without anything, all of them. */
export const soughtSchema = z.strictObject({
  /** Words in any order, each found anywhere in what was typed: title, plate, notes, names, sources … */
  words: textSchema(400).optional(),
  which: z.enum(whiches).optional(),
  /** Builds of the axle, the customer or the gear set of this one, itself among them. */
  alike: z.strictObject({ build: idSchema, in: z.enum(alikes) }).optional(),
});
export type Sought = z.infer<typeof soughtSchema>;
