import { manyDegrees, t95 } from '../../basics/studentT.ts';

/**
 * Uncertainty after the GUM (JCGM 100:2008): named parts, each a standard uncertainty in the unit of the result
 * (sensitivity already multiplied in), added in squares as independent parts; effective degrees of freedom by
 * Welch–Satterthwaite; expanded at 95 % by Student's t.
 */
export interface UncertaintyPart {
  /** What it comes from, in words for the technician: "resolution", "rocks". */
  readonly name: string;
  /** Standard uncertainty, zero or more, in the unit of the result. */
  readonly u: number;
  /** Degrees of freedom, above zero; left out when the part comes from a stated bound and not from repeats. */
  readonly nu?: number;
}

export interface CombinedUncertainty {
  /** Combined standard uncertainty. */
  readonly u: number;
  /**
   * Effective degrees of freedom, truncated down to a whole number (GUM G.4.1: interpolation is the other way;
   * truncating never understates). 1 000 000 stands for "fully known".
   */
  readonly nu: number;
  /** Coverage factor: t for 95 % at `nu`. */
  readonly k: number;
  /** Expanded uncertainty k·u, 95 %. */
  readonly U95: number;
  /** The parts as given, so that a screen can say where the doubt comes from. */
  readonly parts: readonly UncertaintyPart[];
}

/**
 * Combines independent parts. With no parts, or all of them zero, the answer is a zero that is fully known.
 * @throws RangeError when a part is negative or not a number: that is a defect, not a measurement.
 */
export function combine(parts: readonly UncertaintyPart[]): CombinedUncertainty {
  for (const part of parts) requireSound(part);
  const u = Math.hypot(...parts.map((part) => part.u));
  const nu = truncated(effectiveDegrees(parts));
  const k = t95(nu);
  return { u, nu, k, U95: k * u, parts };
}

/**
 * Welch–Satterthwaite before truncation: ν = u⁴ / Σ(uᵢ⁴/νᵢ) (GUM G.4.1). Worked with shares of the whole, so that
 * micrometres to the fourth power do not run out of digits.
 */
export function effectiveDegrees(parts: readonly UncertaintyPart[]): number {
  const whole = Math.hypot(...parts.map((part) => part.u));
  if (whole === 0) return manyDegrees;
  const doubt = parts.reduce((sum, { u, nu }) => (nu === undefined ? sum : sum + (u / whole) ** 4 / nu), 0);
  return Math.min(manyDegrees, 1 / doubt);
}

/** Rounding must not turn four degrees into 3.999999 and then into three. */
const truncated = (nu: number): number => Math.max(1, Math.floor(nu * (1 + 1e-9)));

function requireSound({ name, u, nu }: UncertaintyPart): void {
  if (!(u >= 0 && u < Infinity) || (nu !== undefined && !(nu > 0))) {
    throw new RangeError(`Uncertainty part "${name}" has u ${u} and ${nu} degrees of freedom`);
  }
}

/** Anything equally likely within ± half (GUM 4.3.7). */
export const rectangular = (half: number): number => half / Math.sqrt(3);

/** One reading of a display with step δ: the true value lies equally likely within ± δ/2 (GUM F.2.2.1). */
export const resolutionOf = (step: number): number => step / Math.sqrt(12);

/** The difference of two readings of a display with step δ, each rounded on its own: δ/√6. */
export const resolutionOfDifference = (step: number): number => step / Math.sqrt(6);

/** What is known of an indicator, in the unit of the result. */
interface IndicatorDoubt {
  /** Step of the display. */
  readonly resolution: number;
  /** Standard uncertainty of one reading, from a stated error or a calibration. */
  readonly gaugeU?: number;
  /** Stated hysteresis: width between going in and coming out. */
  readonly hysteresis?: number;
}

/**
 * The indicator's own parts for a difference of two of its readings that are reached from opposite ways. Backlash (two
 * rests) and runout (highest and lowest place) are both such differences, so that the same stated error enters both alike.
 *
 * - resolution: both readings are rounded, δ/√6;
 * - gauge: the readings lie at two places of the scale, whose errors are taken as independent: √2·u (errors of near places
 *   are partly alike, GUM F.1.2.1, so this is rather too much);
 * - hysteresis: see {@link reversal}.
 */
export const differenceParts = ({ resolution, gaugeU, hysteresis }: IndicatorDoubt): readonly UncertaintyPart[] => [
  { name: 'resolution', u: resolutionOfDifference(resolution) },
  ...(gaugeU === undefined ? [] : [{ name: 'gauge', u: Math.SQRT2 * gaugeU }]),
  reversal(resolution, hysteresis),
];

/**
 * What an indicator loses where it turns round, for a difference of two readings that are reached from opposite ways.
 * Nothing is corrected for: the number is what the gauge reads.
 *
 * Stated, it is a limit h that gauges of its kind nearly use up: the loss lies between none and all of it, and the nearer to
 * all the likelier. Root mean square of a density that rises evenly from 0 to h: h/√2 (derived). Not stated, nothing
 * bounds it, and none at all would be the boldest guess: one step of the display is taken at either reading, anything
 * from none to both of them, so 2·step/√3 (own choice).
 */
const reversal = (resolution: number, stated: number | undefined): UncertaintyPart =>
  stated === undefined
    ? { name: 'hysteresis, not stated', u: rectangular(2 * resolution) }
    : { name: 'hysteresis', u: stated / Math.SQRT2 };

/** Repeats of the same thing: standard deviation of the mean, with n − 1 degrees of freedom. Needs n of 2 or more. */
export const repeatability = (name: string, sd: number, n: number): UncertaintyPart => ({
  name,
  u: sd / Math.sqrt(n),
  nu: n - 1,
});
