import { describe, expect, test } from 'vitest';
import { photograph } from '../../../../../hardware-sim/photos/photograph.ts';
import { drawScene } from '../../../../../hardware-sim/photos/scene.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { bendThrough, mapFlank, middleVectors, straight } from '../../../../../src/shared/axle/mark/flankMap.ts';
import type { FlankCorners, Pixel } from '../../../../../src/shared/axle/mark/photo.ts';
import { settleEdges } from '../../../../../src/shared/axle/mark/settleEdges.ts';

const random = seeded(61);
const picture = photograph(drawScene(random, [800, 600]), random);
const bends = {
  ...straight,
  crown: bendThrough(picture.corners, 'crown', picture.middles[2]),
  root: bendThrough(picture.corners, 'root', picture.middles[3]),
};

/** Farthest that a corner of these lies from the true one, as a fraction of the flank's height. */
function farthest(corners: FlankCorners): number {
  const [, height] = middleVectors(picture.corners);
  const off = corners.map(([x, y], n) =>
    Math.hypot(x - (picture.corners[n]?.[0] ?? 0), y - (picture.corners[n]?.[1] ?? 0)),
  );
  return Math.max(...off) / Math.hypot(...height);
}

function settledFrom(corners: FlankCorners) {
  const map = mapFlank(corners, bends);
  if (!map.ok) throw new Error(map.problem.sentence);
  return settleEdges(picture.photo, map.value);
}

describe('the long edges settle on the lines in the photo', () => {
  const [, height] = middleVectors(picture.corners);
  const moved = ([x, y]: Pixel, by: number): Pixel => [x + by * height[0], y + by * height[1]];
  const [a, b, c, d] = picture.corners;

  test('crown corners tapped too high or too low come back to the edge', () => {
    const tapped: FlankCorners = [a, moved(b, 0.04), moved(c, -0.04), d];
    expect(farthest(tapped)).toBeGreaterThan(0.035);
    expect(farthest(settledFrom(tapped).corners)).toBeLessThan(0.02);
  });

  test('corners tapped well stay, and so do bends', () => {
    const { corners, bends: found } = settledFrom(picture.corners);
    expect(farthest(corners)).toBeLessThan(0.02);
    expect(found.crown).toBeCloseTo(bends.crown, 1);
    expect(Math.abs(found.root - bends.root)).toBeLessThan(0.03);
  });
});
