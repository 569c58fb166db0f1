import { describe, expect, test } from 'vitest';
import { Field } from '../../../../../src/shared/basics/field.ts';
import { describeMask } from '../../../../../src/shared/axle/mark/describeMask.ts';

const grid = { columns: 200, rows: 72 };

/** A mask and its bareness from a signed shape: positive inside, 1 fully bare. */
function marked(shape: (heel: number, crown: number) => number) {
  const bareness = new Field(200, 72).map((_, k) =>
    Math.min(1, Math.max(0, shape(((k % 200) + 0.5) / 200 - 0.5, (Math.floor(k / 200) + 0.5) / 72 - 0.5))),
  );
  return { grid, bareness, mask: bareness.where((value) => value > 0.5) };
}
const even = { faceOverHeight: 4, narrowing: 1 };
const ellipse =
  (x: number, y: number, a: number, b: number, slope = 0, sharp = 40) =>
  (heel: number, crown: number) =>
    0.5 + sharp * (1 - Math.hypot((heel - x) / a, (crown - y - slope * (heel - x)) / b));

describe('a mask described', () => {
  test('has the centre, extents and area of its ellipse', () => {
    const mark = describeMask(marked(ellipse(0.1, -0.05, 0.25, 0.3)), even);
    expect(mark.heel).toBeCloseTo(0.1, 3);
    expect(mark.crown).toBeCloseTo(-0.05, 3);
    expect(mark.length).toBeCloseTo(0.5, 1);
    expect(mark.height).toBeCloseTo(0.6, 1);
    expect(mark.area).toBeCloseTo(Math.PI * 0.25 * 0.3, 2);
    expect(mark.edges).toEqual({ toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' });
  });

  test('slants upwards to the heel with a positive sign, by the angle on the tooth itself', () => {
    const mark = describeMask(marked(ellipse(0, 0, 0.4, 0.08, 0.5)), even);
    // Crown rises by half a height over a whole face, that is 0.5 / 4 in mm for mm.
    expect(mark.slant_deg).toBeCloseTo((Math.atan(0.5 / 4) * 180) / Math.PI, 0);
    expect(describeMask(marked(ellipse(0, 0, 0.4, 0.08, -0.5)), even).slant_deg).toBeLessThan(-5);
  });

  test('tells a sharp line at an edge from a fading one and from none', () => {
    expect(describeMask(marked(ellipse(0, 0.35, 0.3, 0.35)), even).edges).toMatchObject({
      crown: 'hard',
      root: 'clear',
    });
    expect(describeMask(marked(ellipse(0, 0.2, 0.3, 0.34, 0, 1)), even).edges.crown).toBe('feathered');
    expect(describeMask(marked(ellipse(0.4, 0, 0.3, 0.3)), even).edges).toMatchObject({ heel: 'hard', toe: 'clear' });
  });

  test('leans to the end where the tooth is higher', () => {
    const all = marked(() => 1);
    expect(describeMask(all, even).heel).toBeCloseTo(0, 6);
    // Height from 0.6 to 1: centroid of a trapezium, (1 − 0.6) / (6 · (1 + 0.6)) from the middle.
    expect(describeMask(all, { ...even, narrowing: 0.6 }).heel).toBeCloseTo(0.4 / 9.6, 4);
  });
});
