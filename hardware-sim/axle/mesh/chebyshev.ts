/**
 * Smooth fields are kept at Chebyshev points and read between them by the polynomial through all of them: for a
 * flank, which has no kink, the error falls by a constant factor with every point added.
 */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/** Chebyshev points of the first kind over a span, in rising order. */
export function pointsOver(span: Span, count: number): readonly number[] {
  const [middle, half] = [(span.low + span.high) / 2, (span.high - span.low) / 2];
  return Array.from({ length: count }, (_, i) => middle - half * Math.cos((Math.PI * (i + 0.5)) / count));
}

/** Coefficients of the polynomial through values at the points of `pointsOver`. */
function coefficients(values: readonly number[]): readonly number[] {
  const n = values.length;
  return values.map((_, order) => {
    const sum = values.reduce((s, value, i) => s + value * Math.cos((Math.PI * order * (n - i - 0.5)) / n), 0);
    return ((order === 0 ? 1 : 2) * sum) / n;
  });
}

/** A function of two places, tabulated at the Chebyshev points of two spans. */
interface Table {
  readonly first: Span;
  readonly second: Span;
  /** Value at a place; outside the spans the polynomial runs on and soon means nothing. */
  at(x: number, y: number): number;
}

/** Reads a table by Clenshaw's rule: rows for the second place, then one row for the first. */
function reader(rows: readonly Float64Array[], first: Span, second: Span): (x: number, y: number) => number {
  const [mx, hx] = [(first.low + first.high) / 2, (first.high - first.low) / 2];
  const [my, hy] = [(second.low + second.high) / 2, (second.high - second.low) / 2];
  return (x, y) => {
    const [s, t] = [(x - mx) / hx, (y - my) / hy];
    let [b1, b2] = [0, 0];
    for (let i = rows.length - 1; i >= 0; i -= 1) {
      const row = rows[i] as Float64Array;
      let [c1, c2] = [0, 0];
      for (let j = row.length - 1; j > 0; j -= 1) {
        const c = 2 * t * c1 - c2 + (row[j] as number);
        c2 = c1;
        c1 = c;
      }
      const value = t * c1 - c2 + (row[0] as number);
      if (i === 0) return s * b1 - b2 + value;
      const b = 2 * s * b1 - b2 + value;
      b2 = b1;
      b1 = b;
    }
    return Number.NaN;
  };
}

/** Tabulates f at `count` points each way. */
export function tabulate(
  f: (x: number, y: number) => number,
  first: Span,
  second: Span,
  count: readonly [number, number],
): Table {
  const ys = pointsOver(second, count[1]);
  const columns = pointsOver(first, count[0]).map((x) => coefficients(ys.map((y) => f(x, y))));
  const byOrder = ys.map((_, j) => coefficients(columns.map((column) => column[j] ?? 0)));
  const rows = columns.map((_, i) => Float64Array.from(byOrder, (order) => order[i] ?? 0));
  return { first, second, at: reader(rows, first, second) };
}

/** Weights that carry values at the points of `pointsOver` to other places of the same span, one row a place. */
export function carriers(span: Span, count: number, places: readonly number[]): readonly Float64Array[] {
  const points = pointsOver(span, count);
  const share = points.map((_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin((Math.PI * (i + 0.5)) / count));
  return places.map((place) => {
    const hit = points.indexOf(place);
    if (hit >= 0) return Float64Array.from(points, (_, i) => (i === hit ? 1 : 0));
    const raw = points.map((point, i) => (share[i] ?? 0) / (place - point));
    const sum = raw.reduce((total, weight) => total + weight, 0);
    return Float64Array.from(raw, (weight) => weight / sum);
  });
}
