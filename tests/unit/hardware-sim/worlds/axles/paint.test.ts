import { expect, test } from 'vitest';
import { gapOver, paintedBy } from '../../../../../hardware-sim/worlds/axles/paint.ts';
import type { FlankSlopes } from '../../../../../hardware-sim/worlds/axles/slopes.ts';

const slopes = (along: number, up: number): FlankSlopes => ({
  angle: 0.35,
  arm: 60,
  pinionOut: { gap: 0.6, along, up, travel: { along: 0, up: 0 } },
  ringAway: { gap: 0.2, along: 0, up: 0, travel: { along: 0, up: 0 } },
});
const size = { face: 60, height: 40 };

/** Closed form of a quadric gap (derived): centre −H⁻¹g, least gap −½ gᵀH⁻¹g, half extents √(2t (H⁻¹)ᵢᵢ). */
test('the mark of a tilted quadric lies where the closed form puts it', () => {
  const relief = { a: 1.6e-4, b: 8e-5, c: 1e-3, heel: 0, crown: 0 };
  const gap = gapOver(slopes(-4e-4, -2e-3), relief, size, 1, 0);
  expect(gap.u).toBeCloseTo(1.5625, 6);
  expect(gap.v).toBeCloseTo(1.875, 6);
  expect(gap.least).toBeCloseTo(0.0278125 - 0.03, 9);
  const mark = paintedBy(gap, size, 0.00635);
  expect(mark.heel * size.face).toBeCloseTo(1.5625, 2);
  expect(mark.crown * size.height).toBeCloseTo(1.875, 2);
  expect(mark.length * size.face).toBeCloseTo(2 * 9.09298, 1);
  expect(mark.height * size.height).toBeCloseTo(2 * 3.63719, 1);
  expect(Math.min(...mark.edges)).toBeGreaterThan(1);
});

test('a mark pushed off the flank touches at the edge, and is seen cut off there', () => {
  const relief = { a: 1.6e-4, b: 0, c: 1e-3, heel: 0, crown: 0 };
  const gap = gapOver(slopes(0, -0.03), relief, size, 1, 0);
  expect(gap.v).toBeCloseTo(30, 6);
  const mark = paintedBy(gap, size, 0.008);
  expect(mark.edges[2]).toBeCloseTo(0, 9);
  expect(mark.edges[3]).toBeGreaterThan(1);
  expect(mark.crown).toBeGreaterThan(0.4);
  expect(mark.crown).toBeLessThan(0.5);
});
