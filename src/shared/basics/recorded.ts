import { z } from 'zod';
import { type Dimension, toInside, unitNamed } from './units.ts';

/** Identifiers are made by the bench; everyone else only passes them on. */
export const idSchema = z.string().min(1).max(80);
export const wordsSchema = z.string().trim().max(4000);
export const nameSchema = z.string().trim().min(1).max(200);
/** RFC 3339 instant with offset, as the bench's wall clock wrote it. */
export const instantSchema = z.iso.datetime({ offset: true });
/** Calendar day, YYYY-MM-DD. */
export const daySchema = z.iso.date();

/** "No number", with its reason: the only thing that may stand where a number is missing. */
export const noNumberSchema = z.strictObject({ none: z.string().min(1) });
export const orNone = <T extends z.ZodType>(schema: T) => z.union([schema, noNumberSchema]);

/** A quantity as somebody entered it: the value and the UCUM code of its unit stay as they were typed. */
const quantityOf = (dimension: Dimension) =>
  z.strictObject({
    value: z.number(),
    unit: z
      .string({ error: 'a unit is needed' })
      .refine((code) => unitNamed(code)?.dimension === dimension, { error: `not a unit of ${dimension}` }),
  });

export const lengthTypedSchema = quantityOf('length');
export const torqueTypedSchema = quantityOf('torque');
export const quantityTypedSchema = z.union([lengthTypedSchema, torqueTypedSchema]);
export const forceTypedSchema = quantityOf('force');
export type QuantityTyped = z.infer<typeof quantityTypedSchema>;

/** A typed quantity as the number used inside (mm, N·m or N). The schema has already made sure that the unit is known. */
export function insideOf(typed: QuantityTyped): number {
  const unit = unitNamed(typed.unit);
  if (unit === undefined) throw new Error(`a unit past its schema: ${typed.unit}`);
  return toInside(typed.value, unit);
}

/** Which way and where backlash was felt, or a limit wants it felt; limits are compared only with readings of their own basis. */
export const backlashBasisSchema = z.strictObject({
  direction: z.enum(['along-rotation', 'square-to-tooth']),
  at: z.union([z.literal('heel'), z.strictObject({ radius_mm: z.number().positive() })]),
});
export type BacklashBasis = z.infer<typeof backlashBasisSchema>;

export const bearingStates = ['set-up', 'new', 'used'] as const;
export type BearingState = (typeof bearingStates)[number];

/** What a rotating torque means; torques are never compared across any of these. */
export const torqueBasisSchema = z.strictObject({
  basis: z.enum(['running', 'starting']),
  seal: z.enum(['in', 'out']),
  bearings: z.enum(bearingStates),
});
export type TorqueBasis = z.infer<typeof torqueBasisSchema>;
