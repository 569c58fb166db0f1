import type { Region } from './regions.ts';
import type { Grid } from './smoothing.ts';

/**
 * Share of its own hull that a region fills, 0…1: near 1 for a mark, which has no bays, and low for smears. It does not
 * change when the tooth is stretched, so a square raster serves.
 */
export function solidity(region: Region, grid: Grid): number {
  const hull = hullArea(outlinePoints(region, grid));
  return hull === 0 ? 1 : Math.min(1, region.cells.length / hull);
}

type Point = readonly [number, number];

/** Corners of the lowest and highest cell in every column. */
function outlinePoints({ cells }: Region, { columns }: Grid): readonly Point[] {
  const spans = new Map<number, readonly [low: number, high: number]>();
  for (const cell of cells) {
    const column = cell % columns;
    const row = (cell - column) / columns;
    const [low, high] = spans.get(column) ?? [row, row];
    spans.set(column, [Math.min(low, row), Math.max(high, row)]);
  }
  return [...spans].flatMap(([x, [low, high]]): readonly Point[] => [
    [x, low],
    [x + 1, low],
    [x, high + 1],
    [x + 1, high + 1],
  ]);
}

/** Area of the hull: a lower and an upper chain over points from left to right (monotone chain, textbook). */
function hullArea(points: readonly Point[]): number {
  const sorted = points.toSorted((p, q) => p[0] - q[0] || p[1] - q[1]);
  const loop = [...chain(sorted), ...chain(sorted.toReversed())];
  let twice = 0;
  loop.forEach((point, n) => {
    const next = loop[(n + 1) % loop.length] ?? point;
    twice += point[0] * next[1] - next[0] * point[1];
  });
  return Math.abs(twice) / 2;
}

/** Points that turn left all the way; the last one begins the other chain. */
function chain(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    while (kept.length >= 2 && turn(kept.at(-2), kept.at(-1), point) <= 0) kept.pop();
    kept.push(point);
  }
  return kept.slice(0, -1);
}

const turn = (a: Point = [0, 0], b: Point = [0, 0], c: Point = [0, 0]): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
