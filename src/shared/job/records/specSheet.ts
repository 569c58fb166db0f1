import { z } from 'zod';
import {
  backlashBasisSchema,
  insideOf,
  lengthTypedSchema,
  nameSchema,
  textSchema,
  torqueBasisSchema,
  torqueTypedSchema,
  wordsSchema,
} from '../../basics/recorded.ts';

/** Quantities that can carry a limit, each with its dimension. One list for spec sheet, checks and certificate. */
export const limitedQuantities = {
  backlash: 'length',
  'backlash-variation': 'length',
  'ring-gear-runout': 'length',
  'flange-runout': 'length',
  'case-end-play': 'length',
  'case-preload': 'length',
  'ring-gear-seat': 'length',
  'cup-seat': 'length',
  'pinion-torque': 'torque',
  'total-torque': 'torque',
  'cap-torque': 'torque',
  'ring-bolt-torque': 'torque',
  'pinion-nut-torque': 'torque',
} as const;
export type LimitedQuantity = keyof typeof limitedQuantities;
export const limitedNames = Object.keys(limitedQuantities) as LimitedQuantity[];

const source = textSchema(400).trim().min(1, { error: 'say where this limit comes from' });

interface Ends {
  readonly min?: { readonly value: number; readonly unit: string } | undefined;
  readonly max?: { readonly value: number; readonly unit: string } | undefined;
}

/** A limit must have an end, and its lower end may not lie above its upper end. */
function checkEnds(limit: Ends, context: z.RefinementCtx): void {
  if (limit.min === undefined && limit.max === undefined) {
    context.addIssue({ code: 'custom', path: ['max'], message: 'a limit needs a lower or an upper end' });
  }
  if (limit.min !== undefined && limit.max !== undefined && insideOf(limit.min) > insideOf(limit.max)) {
    context.addIssue({ code: 'custom', path: ['min'], message: 'the lower end lies above the upper end' });
  }
}

const lengthLimit = { min: lengthTypedSchema.optional(), max: lengthTypedSchema.optional(), source };
const torqueLimit = { min: torqueTypedSchema.optional(), max: torqueTypedSchema.optional(), source };

const plainLengths = [
  'ring-gear-runout',
  'flange-runout',
  'case-end-play',
  'case-preload',
  'ring-gear-seat',
  'cup-seat',
] as const;
const fasteners = ['cap-torque', 'ring-bolt-torque', 'pinion-nut-torque'] as const;
const rotating = ['pinion-torque', 'total-torque'] as const;

/** One limit. Backlash carries the basis it is felt on, a rotating torque the state it is read in. */
export const limitSchema = z
  .discriminatedUnion('quantity', [
    z.strictObject({
      quantity: z.enum(['backlash', 'backlash-variation']),
      basis: backlashBasisSchema,
      ...lengthLimit,
    }),
    z.strictObject({ quantity: z.enum(plainLengths), ...lengthLimit }),
    z.strictObject({ quantity: z.enum(rotating), basis: torqueBasisSchema, ...torqueLimit }),
    z.strictObject({ quantity: z.enum(fasteners), ...torqueLimit }),
  ])
  .superRefine(checkEnds);
export type Limit = z.infer<typeof limitSchema>;

export const rules = ['simple', 'guarded'] as const;
export type Rule = (typeof rules)[number];

/**
 * The limits for one axle as the technician entered them. The bench invents none: a quantity without a
 * limit stays without a verdict.
 */
export const specSheetSchema = z.strictObject({
  name: nameSchema,
  rule: z.enum(rules),
  limits: z.array(limitSchema).max(60),
  note: wordsSchema.optional(),
});
export type SpecSheet = z.infer<typeof specSheetSchema>;

/** Why limits change after something was held against them, and whether what was read before is judged anew. */
export const limitsChangeSchema = z.strictObject({
  why: wordsSchema.min(3),
  /** It was entered wrongly; or it is another limit, for what is read from here on. */
  holds: z.enum(['from-the-start', 'from-now-on']),
});
export type LimitsChange = z.infer<typeof limitsChangeSchema>;

/** The ends of a limit in the unit used inside. */
export function endsOf(limit: Limit): { readonly min?: number; readonly max?: number } {
  return {
    ...(limit.min === undefined ? {} : { min: insideOf(limit.min) }),
    ...(limit.max === undefined ? {} : { max: insideOf(limit.max) }),
  };
}
