import { at } from './at.ts';
import { type Angle, radians } from './quantity.ts';
import { leastSquares } from './leastSquares.ts';
import { span } from './statistics.ts';

/** One value at one place of the gear, in any unit. */
export interface AnglePoint {
  readonly angle: Angle;
  readonly value: number;
}

/** amplitude·cos(order·(angle − highSpot)): one lobe is eccentricity or wobble, two lobes are warp. */
export interface Harmonic {
  readonly order: number;
  /** Half of what this harmonic alone would show as TIR. Zero or more. */
  readonly amplitude: number;
  /** Angle of (the first of) its high spots, 0 ≤ highSpot < 2π/order. Means nothing while amplitude is below `u`. */
  readonly highSpot: Angle;
  /** Cosine and sine parts, for adding harmonics as vectors. */
  readonly cos: number;
  readonly sin: number;
  /** Standard uncertainty of amplitude from the scatter around the fit; 0 when the fit leaves nothing over. */
  readonly u: number;
}

export interface HarmonicFit {
  readonly mean: number;
  readonly harmonics: readonly Harmonic[];
  readonly residuals: readonly number[];
  /** Largest minus smallest of what the harmonics leave over. */
  readonly residualSpan: number;
  readonly residualSquares: number;
  readonly sd: number;
  readonly nu: number;
}

/**
 * Least-squares harmonics of values at equal or unequal angles. At N equal places this is the usual (2/N)·Σ.
 * @returns undefined when these places cannot tell the orders apart: fewer than 2·orders + 1 of them, or two lobes
 *   at four equal places.
 */
export function fitHarmonics(points: readonly AnglePoint[], orders: readonly number[]): HarmonicFit | undefined {
  const rows = points.map(({ angle }) => [
    1,
    ...orders.flatMap((order) => [Math.cos(order * angle), Math.sin(order * angle)]),
  ]);
  const fit = leastSquares(
    rows,
    points.map(({ value }) => value),
  );
  if (fit === undefined) return undefined;
  const harmonics = orders.map((order, index) => {
    const [cos, sin] = [at(fit.coefficients, 1 + 2 * index), at(fit.coefficients, 2 + 2 * index)];
    const spread = (at(fit.unitVariance, 1 + 2 * index) + at(fit.unitVariance, 2 + 2 * index)) / 2;
    return harmonicOf(order, cos, sin, fit.sd * Math.sqrt(spread));
  });
  const { residuals, residualSquares, sd, nu } = fit;
  return {
    mean: at(fit.coefficients, 0),
    harmonics,
    residuals,
    residualSpan: span(residuals),
    residualSquares,
    sd,
    nu,
  };
}

/** The harmonic with these cosine and sine parts. */
export function harmonicOf(order: number, cos: number, sin: number, u = 0): Harmonic {
  const turn = (2 * Math.PI) / order;
  const first = Math.atan2(sin, cos) / order;
  return { order, amplitude: Math.hypot(cos, sin), highSpot: radians(wrapped(first, turn)), cos, sin, u };
}

/** What a harmonic reads at one angle. */
export const harmonicAt = ({ order, cos, sin }: Harmonic, angle: Angle): number =>
  cos * Math.cos(order * angle) + sin * Math.sin(order * angle);

/** The same harmonic told in angles that start `by` earlier: every high spot moves on by `by`. */
export function turned({ order, cos, sin, u }: Harmonic, by: Angle): Harmonic {
  const [c, s] = [Math.cos(order * by), Math.sin(order * by)];
  return harmonicOf(order, cos * c - sin * s, cos * s + sin * c, u);
}

/** Angle brought into 0 ≤ angle < turn. */
export function wrapped(angle: number, turn = 2 * Math.PI): number {
  const rest = angle % turn;
  const up = rest < 0 ? rest + turn : rest;
  return up >= turn ? 0 : up;
}

/**
 * The smallest share of a true TIR that N equally spaced stations can show, at the worst start, for a surface with
 * this many lobes. One lobe: cos(π/N) for even N, cos²(π/2N) for odd N. More lobes: stations that fall on the same
 * part of a lobe count once, N/gcd(N, lobes) of them are left; at four stations two lobes can vanish altogether (0).
 */
export function leastSeen(stations: number, lobes = 1): number {
  const distinct = stations / greatestCommonDivisor(stations, lobes);
  if (distinct <= 2) return 0;
  return distinct % 2 === 0 ? Math.cos(Math.PI / distinct) : Math.cos(Math.PI / (2 * distinct)) ** 2;
}

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

/** Widest gap between neighbouring places round the gear; a whole turn when there are fewer than two. */
export function widestGap(angles: readonly Angle[]): Angle {
  const sorted = angles.map((angle) => wrapped(angle)).sort((a, b) => a - b);
  const first = sorted[0];
  if (first === undefined) return radians(2 * Math.PI);
  let widest = 0;
  for (const [index, angle] of sorted.entries()) {
    widest = Math.max(widest, (sorted[index + 1] ?? first + 2 * Math.PI) - angle);
  }
  return radians(widest);
}
