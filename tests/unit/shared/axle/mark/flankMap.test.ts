import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  archAt,
  bendThrough,
  depthOfCut,
  type FlankMap,
  leanBySkew,
  mapFlank,
  straight,
} from '../../../../../src/shared/axle/mark/flankMap.ts';
import { edgeNames } from '../../../../../src/shared/axle/mark/mark.ts';
import type { FlankCorners, Pixel } from '../../../../../src/shared/axle/mark/photo.ts';

/** A flank 620 by 160 pixels, a little turned. */
const corners: FlankCorners = [
  [100, 400],
  [90, 240],
  [705, 190],
  [720, 350],
];
/** The same seen in a mirror, as the other flank is. */
const mirrored: FlankCorners = [
  [900, 400],
  [910, 240],
  [295, 190],
  [280, 350],
];

function mapOf(given: FlankCorners, bends = straight): FlankMap {
  const map = mapFlank(given, bends);
  if (!map.ok) throw new Error(map.problem.sentence);
  return map.value;
}

const near = (p: Pixel, q: Pixel): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

describe('the map of a flank', () => {
  test.each([
    ['one turn', corners],
    ['the other turn', mirrored],
  ])('puts the corners where they were tapped, %s', (_, given) => {
    const map = mapOf(given);
    expect(near(map.toPhoto(0, 0), given[0])).toBeLessThan(1e-6);
    expect(near(map.toPhoto(0, 1), given[1])).toBeLessThan(1e-6);
    expect(near(map.toPhoto(1, 1), given[2])).toBeLessThan(1e-6);
    expect(near(map.toPhoto(1, 0), given[3])).toBeLessThan(1e-6);
  });

  test('takes the corners of a bent flank as they are, and bends only between them', () => {
    const bend = fc.double({ min: -0.5, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(fc.record({ toe: bend, heel: bend, crown: bend, root: bend }), (bends) => {
        const map = mapOf(corners, bends);
        expect(near(map.toPhoto(0, 0), corners[0])).toBeLessThan(1e-6);
        expect(near(map.toPhoto(1, 1), corners[2])).toBeLessThan(1e-6);
      }),
    );
  });

  test('goes through the handle that was dragged', () => {
    for (const edge of edgeNames) {
      const flat = mapOf(corners);
      const [along, up] = { toe: [0, 0.5], heel: [1, 0.5], crown: [0.5, 1], root: [0.5, 0] }[edge] as [number, number];
      const handle: Pixel = [flat.toPhoto(along, up)[0] + 6, flat.toPhoto(along, up)[1] - 14];
      const map = mapOf(corners, { ...straight, [edge]: bendThrough(corners, edge, handle) });
      const walk = Array.from({ length: 2001 }, (_, n) => n / 2000);
      const closest = Math.min(
        ...walk.map((x) =>
          near(handle, edge === 'toe' || edge === 'heel' ? map.toPhoto(along, x) : map.toPhoto(x, up)),
        ),
      );
      expect(closest, edge).toBeLessThan(1.5);
    }
  });

  test('says which corners make no flank', () => {
    const crossed = mapFlank([corners[0], corners[2], corners[1], corners[3]]);
    expect(crossed.ok).toBe(false);
    if (!crossed.ok) expect(crossed.problem).toMatchObject({ kind: 'corners', field: 'corners' });
  });

  test('lets the cut say how much of the narrowing is the tooth’s own', () => {
    const lowToe: FlankCorners = [
      [0, 108],
      [0, 16],
      [400, 0],
      [400, 124],
    ];
    const narrowing = (depth?: 'uniform' | 'tapered') => {
      const map = mapFlank(lowToe, straight, { depth });
      if (!map.ok) throw new Error(map.problem.sentence);
      return map.value.narrowing;
    };
    expect(narrowing(depthOfCut('face-hobbed'))).toBe(1);
    expect(narrowing(depthOfCut('face-milled'))).toBeCloseTo(92 / 124, 9);
    expect(narrowing()).toBeCloseTo(92 / 124, 9);
    // Higher at the toe: a camera does that, no cut.
    const [a, b, c, d] = lowToe;
    const turned = mapFlank([d, c, b, a], straight, { depth: 'tapered' });
    expect(turned.ok && turned.value.narrowing).toBe(1);
  });

  test('puts the top of a skewed arc nearer to the heel and leaves its ends and its middle', () => {
    expect(archAt(0, 0.3, 0.1)).toBe(0);
    expect(archAt(1, 0.3, 0.1)).toBe(0);
    expect(archAt(0.5, 0.3, 0.1)).toBeCloseTo(0.3, 12);
    expect(archAt(0.75, 0.3, 0.1)).toBeGreaterThan(archAt(0.25, 0.3, 0.1));
    const map = mapFlank(corners, { ...straight, crown: 0.3, root: 0.3 }, { skew: 0.1 });
    expect(map.ok && map.value.skew).toBe(0.1);
  });

  test('leaves an arc where the photo shows it, however much of its skew is taken for a lean', () => {
    const [bend, skew] = [0.3, 0.08];
    const found = mapFlank(corners, { ...straight, crown: bend, root: bend }, { skew });
    if (!found.ok) throw new Error(found.problem.sentence);
    const [, b, c] = corners;
    const [face, height] = [
      [c[0] - b[0], c[1] - b[1]] as const,
      [
        (corners[1][0] + c[0] - corners[0][0] - corners[3][0]) / 2,
        (corners[1][1] + c[1] - corners[0][1] - corners[3][1]) / 2,
      ] as const,
    ];
    const area = face[0] * height[1] - face[1] * height[0];
    for (let along = 0.1; along < 1; along += 0.1) {
      const [x, y] = found.value.toPhoto(along, 1);
      const off = [x - b[0], y - b[1]] as const;
      const share = (off[0] * height[1] - off[1] * height[0]) / area;
      const up = (face[0] * off[1] - face[1] * off[0]) / area;
      expect(Math.abs(up - archAt(share, bend, skew)), `${along}`).toBeLessThan(0.02);
    }
  });

  test('takes a skew for the lean of an even arc, the more the more it is bent, and never for more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.7, noNaN: true }),
        fc.double({ min: -0.1, max: 0.1, noNaN: true }),
        (bend, lean) => {
          // An even arc that leans by so much looks skewed by this (derived, to first order).
          const told = leanBySkew(bend, 4 * bend * lean);
          expect(Math.abs(told)).toBeLessThanOrEqual(Math.abs(lean));
          expect(told * lean).toBeGreaterThanOrEqual(0);
          // Bent the other way it looks skewed the other way, and leans as before.
          expect(leanBySkew(-bend, -4 * bend * lean)).toBeCloseTo(told, 12);
        },
      ),
    );
    expect(leanBySkew(0, 0.1)).toBe(0);
    expect(leanBySkew(0.7, 4 * 0.7 * 0.05)).toBeGreaterThan(0.04);
  });

  test('takes a small narrowing as perspective and a large one as the tooth’s own', () => {
    const narrowed = (by: number): FlankCorners => [
      [0, 100 + by],
      [0, 0],
      [400, 0],
      [400, 100],
    ];
    expect(mapOf(narrowed(-2)).narrowing).toBe(1);
    expect(mapOf(narrowed(-30)).narrowing).toBeCloseTo(0.7, 6);
    // A tapered tooth's middle lies in the middle; a rectangle's in perspective would not.
    expect(mapOf(narrowed(-30)).toPhoto(0.5, 0)[0]).toBeCloseTo(200, 6);
  });
});
