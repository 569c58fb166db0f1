import { z } from 'zod';
import {
  daySchema,
  forceTypedSchema,
  idSchema,
  instantSchema,
  lengthTypedSchema,
  nameSchema,
  quantityTypedSchema,
  textSchema,
} from '../../basics/recorded.ts';

/** What a gauge itself reads: a pull scale reads a force, and its arm makes a torque of it. */
const readSchema = z.union([quantityTypedSchema, forceTypedSchema]);

const isAboveZero = ({ value }: { readonly value: number }): boolean => value > 0;
const aboveZero = { error: 'must be above zero' };

/** What a USB adapter says of itself: by it a gauge is known again when its port has another number. */
export const usbSchema = z.strictObject({
  vendor: textSchema(120),
  product: textSchema(120),
  serial: textSchema(200).optional(),
});

/**
 * A gauge as the shop knows it. Stated error and hysteresis follow the names of the indicator standard
 * (ISO 463 draft: E_MPE over the full range, H_MPE); a torque tool states its error as a share of the reading.
 */
export const gaugeSchema = z.strictObject({
  id: idSchema,
  label: nameSchema,
  kind: z.enum(['indicator', 'torque', 'typed']),
  serial: textSchema(120).trim().optional(),
  resolution: readSchema.refine(isAboveZero, aboveZero),
  /** Largest error the maker states, half-width (±). */
  statedError: readSchema.optional(),
  /** Largest error of a torque tool in percent of the reading, half-width (±). */
  statedError_percent: z.number().positive().max(50).optional(),
  hysteresis: quantityTypedSchema.optional(),
  /** Of a pull scale: from the axis to the middle of the cord, the pull square to it, and how well that is known (±). */
  arm: z
    .strictObject({ length: lengthTypedSchema.refine(isAboveZero, aboveZero), within: lengthTypedSchema.optional() })
    .optional(),
  calibratedOn: daySchema.optional(),
  dueOn: daySchema.optional(),
  /** Link URL where it was last reached; a gauge whose readings are typed has none. */
  link: textSchema(400).optional(),
  /** The adapter it was last seen on. */
  usb: usbSchema.optional(),
  /** Line format by which its bytes become readings; absent means the plain "number, perhaps a unit". */
  format: z.record(z.string(), z.unknown()).optional(),
  /** UCUM unit for lines that carry none. */
  unit: textSchema(40).optional(),
});
export type Gauge = z.infer<typeof gaugeSchema>;

/** The gauge as it was when the measurement was taken: a later calibration must not change an old certificate. */
export const gaugeSeenSchema = gaugeSchema.omit({ link: true, format: true, usb: true }).extend({
  /** Its last daily check before the measurement, where that found something wrong: in mm or N·m, and why. */
  failedCheck: z
    .strictObject({ at: instantSchema, off: z.number(), spread: z.number(), why: textSchema(400) })
    .optional(),
});
export type GaugeSeen = z.infer<typeof gaugeSeenSchema>;

/** The gauge as it is today, as a record of a measurement keeps it: without where it is plugged in. */
export const gaugeSeenOf = ({ link: _link, format: _format, usb: _usb, ...gauge }: Gauge): GaugeSeen =>
  gaugeSeenSchema.parse(gauge);

/** Whether the gauge was past its calibration date on that day; unknown when no due date was entered. */
export function calibrationOn(gauge: GaugeSeen, day: string): 'in-date' | 'past' | 'not-stated' {
  if (gauge.dueOn === undefined) return 'not-stated';
  return gauge.dueOn >= day ? 'in-date' : 'past';
}
