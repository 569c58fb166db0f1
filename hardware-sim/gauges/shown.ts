import type { LengthUnit, TorqueUnit } from './units.ts';

/** What a gauge shows at one reading: the digits of its display as a number, in its unit. */
export interface Shown {
  readonly value: number;
  readonly unit: LengthUnit | TorqueUnit;
  /** The step of the display, in that unit: it says how many decimals the line carries. */
  readonly resolution: number;
  readonly overload: boolean;
}

/** Any gauge: fed with what it meets, mm of stem or N·m, in order of time. */
export interface Gauge {
  read(felt: number): Shown;
  /** Sets zero where it now stands, as a thumb on the button does. */
  pressZero(): void;
  /** The unit button: mm and inch, or N·m and in-lb, each with the step it has there. */
  pressUnit(): void;
}
