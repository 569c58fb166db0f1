/** One reading of a ride: bench time, mm, and how far the gear had turned by then (radians, not wrapped; NaN where nothing measures it). */
export interface Point {
  readonly t: number;
  readonly value: number;
  readonly travel: number;
}

/**
 * The readings of a ride in their order. A very long one is folded: two neighbours become their mean, so that a session
 * of any length keeps a bounded number of points and nothing of its shape is lost.
 */
export interface Trace {
  points: Point[];
  /** Readings that make one point. */
  perPoint: number;
  /** Readings that wait for the others of their point. */
  waiting: Point[];
}

/** Forty seconds of the fastest gauge, ten minutes of a slow one. */
const mostPoints = 8192;

export const newTrace = (): Trace => ({ points: [], perPoint: 1, waiting: [] });

export const copyOfTrace = ({ points, perPoint, waiting }: Trace): Trace => ({
  points: [...points],
  perPoint,
  waiting: [...waiting],
});

export function addToTrace(trace: Trace, point: Point): void {
  if (trace.perPoint === 1) trace.points.push(point);
  else {
    trace.waiting.push(point);
    if (trace.waiting.length < trace.perPoint) return;
    trace.points.push(meanOf(trace.waiting));
    trace.waiting = [];
  }
  if (trace.points.length >= mostPoints) fold(trace);
}

function fold(trace: Trace): void {
  trace.points = grouped(trace.points, 2);
  trace.perPoint *= 2;
}

/** Neighbours taken together, `size` at a time; the last group may be smaller. */
export function grouped(points: readonly Point[], size: number): Point[] {
  const groups: Point[] = [];
  for (let from = 0; from < points.length; from += size) groups.push(meanOf(points.slice(from, from + size)));
  return groups;
}

function meanOf(points: readonly Point[]): Point {
  let [t, value, travel] = [0, 0, 0];
  for (const point of points) {
    t += point.t;
    value += point.value;
    travel += point.travel;
  }
  const n = points.length;
  return { t: t / n, value: value / n, travel: travel / n };
}

/** Middle interval between neighbouring points, seconds; 0 for fewer than two. */
export function paceOf(points: readonly Point[]): number {
  const [first, last] = [points[0], points.at(-1)];
  return first === undefined || last === undefined || points.length < 2 ? 0 : (last.t - first.t) / (points.length - 1);
}

/**
 * Standard deviation of a point's noise, rounding included, from how far each lies from the middle of its neighbours.
 * For normal noise the mean of |x₋ − 2x + x₊| is σ·√6·√(2/π) (derived).
 */
export function noiseOfPoints(points: readonly Point[]): number {
  let [sum, bends] = [0, 0];
  for (const [index, point] of points.entries()) {
    const [before, after] = [points[index - 1], points[index + 1]];
    if (before === undefined || after === undefined) continue;
    sum += Math.abs(before.value - 2 * point.value + after.value);
    bends += 1;
  }
  return bends === 0 ? 0 : sum / bends / (Math.sqrt(6) * Math.sqrt(2 / Math.PI));
}
