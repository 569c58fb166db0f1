import { describe, expect, it } from 'vitest';
import { hatch } from '../../../../../src/shared/presentation/drawing/hatch.ts';
import { pathPoints } from '../../../../support/drawings/look.ts';

const square = [
  { x: 0, y: 0 },
  { x: 40, y: 0 },
  { x: 40, y: 40 },
  { x: 0, y: 40 },
];

describe('hatching', () => {
  it('stays inside and covers the outline evenly', () => {
    const points = pathPoints(hatch(square, 45, 5));
    for (const { x, y } of points) expect(x >= -0.01 && x <= 40.01 && y >= -0.01 && y <= 40.01).toBe(true);
    const lengths = points.flatMap((from, index) => {
      const to = points[index + 1];
      return index % 2 === 0 && to !== undefined ? [Math.hypot(to.x - from.x, to.y - from.y)] : [];
    });
    // Lines 5 apart cover the square: their whole length times their distance is its area.
    expect(lengths.reduce((sum, length) => sum + length, 0) * 5).toBeCloseTo(1600, -2);
  });

  it('leaves the notch of a hollow outline free', () => {
    const notched = [...square.slice(0, 2), { x: 40, y: 40 }, { x: 20, y: 10 }, { x: 0, y: 40 }];
    const points = pathPoints(hatch(notched, 0, 4));
    const inNotch = points.filter(({ x, y }) => y > 12 && Math.abs(x - 20) < ((y - 10) / 30) * 20 - 0.1);
    expect(points.length).toBeGreaterThan(20);
    expect(inNotch).toEqual([]);
  });

  it('draws nothing in nothing', () => {
    expect(hatch([], 45, 5)).toBe('');
  });
});
