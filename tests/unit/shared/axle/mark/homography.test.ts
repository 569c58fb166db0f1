import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carry, type Homography, squareTo } from '../../../../../src/shared/axle/mark/homography.ts';
import type { FlankCorners, Pixel } from '../../../../../src/shared/axle/mark/photo.ts';

const square: FlankCorners = [
  [0, 0],
  [0, 1],
  [1, 1],
  [1, 0],
];

/**
 * An independent way to the same map: the eight linear equations of four point pairs, by elimination. It shares
 * nothing with the closed form under test.
 */
function byElimination(to: FlankCorners): (x: number, y: number) => Pixel {
  const rows = square.flatMap(([x, y], n) => {
    const [X, Y] = to[n] ?? [0, 0];
    return [
      [x, y, 1, 0, 0, 0, -X * x, -X * y, X],
      [0, 0, 0, x, y, 1, -Y * x, -Y * y, Y],
    ];
  });
  for (let k = 0; k < 8; k += 1) {
    const pivot = rows.slice(k).reduce((best, row) => (Math.abs(row[k] ?? 0) > Math.abs(best[k] ?? 0) ? row : best));
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(k, 0, pivot);
    for (const row of rows) {
      if (row === pivot) continue;
      const factor = (row[k] ?? 0) / (pivot[k] ?? 1);
      pivot.forEach((value, n) => (row[n] = (row[n] ?? 0) - factor * value));
    }
  }
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = rows.map((row, k) => (row[8] ?? 0) / (row[k] ?? 1));
  return (x, y) => {
    const depth = g * x + h * y + 1;
    return [(a * x + b * y + c) / depth, (d * x + e * y + f) / depth];
  };
}

/** Four corners of a convex quadrangle: one in each quarter of the picture, of either turn. */
const coordinate = fc.double({ min: 20, max: 380, noNaN: true });
const corners = fc
  .tuple(fc.array(coordinate, { minLength: 8, maxLength: 8 }), fc.boolean())
  .map(([v, mirrored]): FlankCorners => {
    const at = (n: number) => v[n] ?? 0;
    const points: FlankCorners = [
      [at(0), 1000 - at(1)],
      [at(2), at(3)],
      [1000 - at(4), at(5)],
      [1000 - at(6), 1000 - at(7)],
    ];
    return mirrored ? [points[3], points[2], points[1], points[0]] : points;
  });
const place = fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }));

describe('the homography of four corners', () => {
  test('is that of an independent solution of the eight equations, on random quadrangles', () => {
    fc.assert(
      fc.property(corners, place, (to, [x, y]) => {
        const map = squareTo(to);
        if (map === undefined) throw new Error('a convex quadrangle has a homography');
        const [mine, other] = [carry(map, x, y), byElimination(to)(x, y)];
        expect(Math.hypot(mine[0] - other[0], mine[1] - other[1])).toBeLessThan(1e-6);
      }),
      { numRuns: 500 },
    );
  });

  test('carries the corners to the corners', () => {
    fc.assert(
      fc.property(corners, (to) => {
        const map = squareTo(to);
        square.forEach(([x, y], n) => {
          const at = map === undefined ? [Number.NaN, Number.NaN] : carry(map, x, y);
          expect(at[0]).toBeCloseTo(to[n]?.[0] ?? 0, 6);
          expect(at[1]).toBeCloseTo(to[n]?.[1] ?? 0, 6);
        });
      }),
    );
  });

  test('has a way back', () => {
    fc.assert(
      fc.property(corners, place, (to, [x, y]) => {
        const map = squareTo(to);
        if (map === undefined) throw new Error('a convex quadrangle has a homography');
        const [back, alsoBack] = [carry(wayBack(map), ...carry(map, x, y)), carry(after(wayBack(map), map), x, y)];
        expect(back[0]).toBeCloseTo(x, 7);
        expect(back[1]).toBeCloseTo(y, 7);
        expect(alsoBack[0]).toBeCloseTo(x, 7);
        expect(alsoBack[1]).toBeCloseTo(y, 7);
      }),
    );
  });

  test('keeps straight lines straight', () => {
    const map = squareTo([
      [10, 300],
      [40, 90],
      [700, 20],
      [650, 420],
    ]);
    if (map === undefined) throw new Error('this quadrangle has a homography');
    const [a, b, c] = [carry(map, 0.1, 0.2), carry(map, 0.5, 0.4), carry(map, 0.9, 0.6)];
    expect((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).toBeCloseTo(0, 6);
  });

  test('does not exist where three corners lie on a line', () => {
    expect(
      squareTo([
        [0, 0],
        [1, 1],
        [2, 2],
        [5, 0],
      ]),
    ).toBeUndefined();
  });
});

/** The way back, by the adjugate: its scale is not that of the inverse, which means nothing here. */
const wayBack = ([a, b, c, d, e, f, g, h, i]: Homography): Homography => [
  e * i - f * h,
  c * h - b * i,
  b * f - c * e,
  f * g - d * i,
  a * i - c * g,
  c * d - a * f,
  d * h - e * g,
  b * g - a * h,
  a * e - b * d,
];

/** First `inner`, then `outer`. */
function after(outer: Homography, inner: Homography): Homography {
  const entry = (row: 0 | 3 | 6, column: 0 | 1 | 2): number =>
    outer[row] * inner[column] +
    outer[(row + 1) as 1 | 4 | 7] * inner[(column + 3) as 3 | 4 | 5] +
    outer[(row + 2) as 2 | 5 | 8] * inner[(column + 6) as 6 | 7 | 8];
  return [
    entry(0, 0),
    entry(0, 1),
    entry(0, 2),
    entry(3, 0),
    entry(3, 1),
    entry(3, 2),
    entry(6, 0),
    entry(6, 1),
    entry(6, 2),
  ];
}
