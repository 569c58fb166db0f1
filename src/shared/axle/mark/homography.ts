import type { FlankCorners, Pixel } from './photo.ts';

/**
 * A plane seen in perspective as another plane: nine numbers, row by row, acting on (x, y, 1). The scale of all nine
 * means nothing.
 */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/**
 * The homography that carries the unit square to four corners: (0,0) to the first, (0,1) to the second, (1,1) to the
 * third, (1,0) to the fourth. Closed form (derived: three corners fix an affine map, the fourth its perspective).
 * @returns undefined where three corners lie on a line.
 */
export function squareTo([a, b, c, d]: FlankCorners): Homography | undefined {
  const [toB, toD] = [from(c, b), from(c, d)];
  const skew: Pixel = [a[0] - b[0] + c[0] - d[0], a[1] - b[1] + c[1] - d[1]];
  const size = cross(toD, toB);
  const others = [cross(from(a, b), from(a, d)), cross(from(a, b), from(a, c)), cross(from(a, c), from(a, d))];
  if (size === 0 || others.includes(0)) return undefined;
  const [g, h] = [cross(skew, toB) / size, cross(toD, skew) / size];
  return [
    d[0] - a[0] + g * d[0],
    b[0] - a[0] + h * b[0],
    a[0],
    d[1] - a[1] + g * d[1],
    b[1] - a[1] + h * b[1],
    a[1],
    g,
    h,
    1,
  ];
}

const from = (p: Pixel, q: Pixel): Pixel => [q[0] - p[0], q[1] - p[1]];
const cross = (p: Pixel, q: Pixel): number => p[0] * q[1] - p[1] * q[0];

/** Where a point goes. */
export function carry(map: Homography, x: number, y: number): Pixel {
  const depth = map[6] * x + map[7] * y + map[8];
  return [(map[0] * x + map[1] * y + map[2]) / depth, (map[3] * x + map[4] * y + map[5]) / depth];
}
