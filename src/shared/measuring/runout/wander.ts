import { leastSquares } from '../../basics/leastSquares.ts';
import { grouped, paceOf, type Point } from './trace.ts';

/** Noise with a memory, beside the noise that each reading has by itself. */
interface Wander {
  /** Standard deviation of each reading's own noise, mm. */
  readonly white: number;
  /** Standard deviation of what wanders, mm. */
  readonly sd: number;
  /** How long it remembers, s. */
  readonly memory_s: number;
  /** Degrees of freedom with which it is known. */
  readonly nu: number;
}

/** Longest memory that a ride can tell from its surface: further than that, what wanders is drift, and shows in not coming back. */
const shareOfRide = 1 / 8;
/** Shape of the surface that is taken out first: a straight line and three lobes. */
const lobes = [1, 2, 3] as const;

/**
 * Noise told by how far a reading lies from the middle of two others, one before and one after, as these move away: noise
 * of its own is as large at every distance, noise with a memory grows until the distance is longer than the memory. What the
 * surface itself does over such distances is taken out as far as a line and three lobes can.
 * @param points in the order of time, evenly spaced as a gauge reads
 * @param places where on the gear each point lies, radians; absent where nothing measures it: the ride then counts as one turn at even speed
 * @returns undefined where the readings are too few to tell.
 */
export function wanderOf(points: readonly Point[], turns?: number): Wander | undefined {
  const pace_s = paceOf(points);
  if (points.length < 24 || pace_s <= 0) return undefined;
  const { left, usable } = withoutSurface(points, turns);
  const curve: Bend[] = [];
  for (let lag = 1; lag <= Math.max(1, Math.floor(points.length / 16)); lag = Math.max(lag + 1, Math.round(lag * 1.5)))
    curve.push({ lag_s: lag * pace_s, ...bendSquare(left, usable, lag) });
  const ride_s = pace_s * points.length;
  return fitted(curve, ride_s);
}

interface Bend {
  readonly lag_s: number;
  /** Mean square of x₋ − 2x + x₊ at that distance, and of how many. */
  readonly square: number;
  readonly many: number;
}

interface Left {
  readonly left: readonly number[];
  /** Where it may be looked at. */
  readonly usable: readonly boolean[];
}

/** A hand that turns unevenly shifts the surface where that is steep; where it is flat, only noise is left to see. */
const flatShare = 0.4;

function withoutSurface(points: readonly Point[], turns: number | undefined): Left {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return { left: [], usable: [] };
  const phase = ({ t, travel }: Point): number =>
    turns === undefined ? travel : (2 * Math.PI * turns * (t - first.t)) / (last.t - first.t);
  const along = ({ t }: Point): number => (t - first.t) / (last.t - first.t) - 0.5;
  const columns = (point: Point): readonly number[] => [
    1,
    along(point),
    ...lobes.flatMap((order) => [Math.cos(order * phase(point)), Math.sin(order * phase(point))]),
  ];
  const few = grouped(points, Math.ceil(points.length / 128));
  const fit = leastSquares(
    few.map(columns),
    few.map(({ value }) => value),
  );
  if (fit === undefined) return { left: points.map(({ value }) => value), usable: points.map(() => true) };
  const height = (point: Point): number =>
    columns(point).reduce((sum, column, index) => sum + column * (fit.coefficients[index] ?? 0), 0);
  const heights = points.map(height);
  const left = points.map(({ value }, index) => value - (heights[index] ?? value));
  return { left, usable: turns === undefined ? points.map(() => true) : flat(heights) };
}

/** The flattest part of the surface, rests among it. */
function flat(heights: readonly number[]): readonly boolean[] {
  const slopes = heights.map((height, index) =>
    Math.abs((heights[index + 1] ?? height) - (heights[index - 1] ?? height)),
  );
  const bound = slopes.toSorted((a, b) => a - b)[Math.floor(flatShare * slopes.length)] ?? Infinity;
  return slopes.map((slope) => slope <= bound);
}

/** The part that bends most may be a burr; of a normal spread the rest keeps 0.31 of its square (derived). */
const keptShare = 0.7;
const keptSquare = 0.31;

function bendSquare(left: readonly number[], usable: readonly boolean[], lag: number): Omit<Bend, 'lag_s'> {
  const squares: number[] = [];
  for (const [index, value] of left.entries()) {
    const [before, after] = [left[index - lag], left[index + lag]];
    if (usable[index] === true && before !== undefined && after !== undefined)
      squares.push((before - 2 * value + after) ** 2);
  }
  const kept = squares.toSorted((a, b) => a - b).slice(0, Math.max(1, Math.floor(keptShare * squares.length)));
  const square = kept.reduce((sum, one) => sum + one, 0) / kept.length / keptSquare;
  return { square, many: squares.length };
}

/**
 * Of rides with noise that has no memory 95 in 100 stay under this: squared relative distance of the mean squares from what
 * they have in common, times how many bends each is of, per distance (simulated over 60 to 1000 readings).
 */
const byChance = 7.5;

/** Tries memories from half a reading's distance to the longest, and keeps the one that explains the bends best. */
function fitted(curve: readonly Bend[], ride_s: number): Wander {
  const [shortest, longest] = [(curve[0]?.lag_s ?? 0) / 2, ride_s * shareOfRide];
  let best: Wander & { readonly misfit: number } = { white: 0, sd: 0, memory_s: shortest, nu: 1, misfit: Infinity };
  for (let memory_s = shortest; memory_s <= longest; memory_s *= 1.4) {
    const { white, wandering, misfit } = shares(curve, memory_s);
    if (misfit >= best.misfit) continue;
    const nu = Math.max(3, Math.floor(ride_s / (4 * memory_s)));
    best = { white: Math.sqrt(white), sd: Math.sqrt(wandering), memory_s, nu, misfit };
  }
  const { misfit: _, ...wander } = best;
  return isChance(curve) ? { ...wander, white: Math.hypot(wander.white, wander.sd), sd: 0 } : wander;
}

/** Whether noise without memory bends as much at every distance as was seen, give or take chance. */
function isChance(curve: readonly Bend[]): boolean {
  const all = curve.reduce((sum, { many }) => sum + many, 0);
  const mean = curve.reduce((sum, { square, many }) => sum + square * many, 0) / Math.max(1, all);
  const off = curve.reduce((sum, { square, many }) => sum + many * (square / mean - 1) ** 2, 0);
  return mean === 0 || off < byChance * curve.length;
}

/** For a first-order process x₋ − 2x + x₊ has the variance 2σ²(3 − 4ρ + ρ²), ρ = exp(−lag/memory); ρ = 0 for white noise (derived). */
const bendOf = (lag_s: number, memory_s: number): number => {
  const kept = Math.exp(-lag_s / memory_s);
  return 2 * (3 - 4 * kept + kept * kept);
};

/** The two variances, none below 0, that explain the bends with this memory; each bend counts by its own size. */
function shares(curve: readonly Bend[], memory_s: number) {
  let [aa, ab, bb, ay, by] = [0, 0, 0, 0, 0];
  for (const { lag_s, square } of curve) {
    if (square === 0) continue;
    const [a, b] = [6 / square, bendOf(lag_s, memory_s) / square];
    aa += a * a;
    ab += a * b;
    bb += b * b;
    ay += a;
    by += b;
  }
  const misfitOf = (white: number, wandering: number): number =>
    curve.reduce((sum, { lag_s, square }) => {
      const off = square === 0 ? 0 : (6 * white + bendOf(lag_s, memory_s) * wandering) / square - 1;
      return sum + off * off;
    }, 0);
  const determinant = aa * bb - ab * ab;
  const candidates = [
    { white: aa > 0 ? ay / aa : 0, wandering: 0 },
    { white: 0, wandering: bb > 0 ? by / bb : 0 },
    ...(determinant > 1e-12 * aa * bb
      ? [{ white: (ay * bb - by * ab) / determinant, wandering: (by * aa - ay * ab) / determinant }]
      : []),
  ].filter(({ white, wandering }) => white >= 0 && wandering >= 0);
  return candidates
    .map((one) => ({ ...one, misfit: misfitOf(one.white, one.wandering) }))
    .reduce((best, one) => (one.misfit < best.misfit ? one : best));
}
