import { z } from 'zod';
import { largestTyped } from './parse.ts';
import { type Dimension, toInside, unitNamed } from './units.ts';

/**
 * Text that can be written, printed and read again: no half characters (lone surrogates have no UTF-8) and no control
 * characters but tabs and ends of lines.
 */
const isPrintable = (text: string): boolean => text.isWellFormed() && !/[^\P{Cc}\t\n\r]/u.test(text);

export const textSchema = (longest: number) =>
  z.string().max(longest).refine(isPrintable, { error: 'holds characters that cannot be printed' });

/** Identifiers are made by the bench; everyone else only passes them on. */
export const idSchema = textSchema(80).min(1);
export const wordsSchema = textSchema(4000).trim();
export const nameSchema = textSchema(200).trim().min(1);
/** RFC 3339 instant with offset, as the bench's wall clock wrote it. */
export const instantSchema = z.iso.datetime({ offset: true });
/** Calendar day, YYYY-MM-DD. */
export const daySchema = z.iso.date();

/** "No number", with its reason: the only thing that may stand where a number is missing. */
export const noNumberSchema = z.strictObject({ none: textSchema(4000).min(1) });
export const orNone = <T extends z.ZodType>(schema: T) => z.union([schema, noNumberSchema]);

/** A quantity as somebody entered it: the value and the UCUM code of its unit stay as they were typed. */
const quantityOf = (dimension: Dimension) =>
  z.strictObject({
    value: z.number().min(-largestTyped).max(largestTyped),
    unit: z
      .string({ error: 'a unit is needed' })
      // Nothing further is asked of a quantity without a unit: `insideOf` would meet one that it does not know.
      .refine((code) => unitNamed(code)?.dimension === dimension, { error: `not a unit of ${dimension}`, abort: true }),
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
