import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FlankPlace } from '../../../../../src/shared/presentation/drawing/flankShape.ts';
import { cutToFlank, markContours, markOutline } from '../../../../../src/shared/presentation/drawing/markShape.ts';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import { centredMark, fadingMark, lowToeMark } from '../../../../support/drawings/samples.ts';

const aspect = 2.7;

const span = (outline: readonly FlankPlace[], of: keyof FlankPlace): readonly [number, number] => {
  const values = outline.map((place) => place[of]);
  return [Math.min(...values), Math.max(...values)];
};

/** Shoelace; positive whichever way round. */
const area = (outline: readonly FlankPlace[]): number =>
  Math.abs(
    outline.reduce((sum, { heel, crown }, index) => {
      const next = outline[(index + 1) % outline.length] ?? { heel, crown };
      return sum + heel * next.crown - next.heel * crown;
    }, 0),
  ) / 2;

/** Direction of the long axis of the outline's points, as drawn. */
function slantOf(outline: readonly FlankPlace[], centre: FlankPlace): number {
  let [xx, yy, xy] = [0, 0, 0];
  for (const place of outline) {
    const [x, y] = [(place.heel - centre.heel) * aspect, place.crown - centre.crown];
    xx += x * x;
    yy += y * y;
    xy += x * y;
  }
  return ((Math.atan2(2 * xy, xx - yy) / 2) * 180) / Math.PI;
}

const clearMark = fc
  .record({
    length: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
    height: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
    slant_deg: fc.double({ min: -12, max: 12, noNaN: true }),
  })
  .map((shape): Mark => ({ ...centredMark, heel: 0, crown: 0, ...shape }));

describe('the shape of a mark', () => {
  it('has the length and height that were read', () => {
    fc.assert(
      fc.property(clearMark, (mark) => {
        const outline = markOutline(mark, aspect);
        const [toe, heel] = span(outline, 'heel');
        const [root, crown] = span(outline, 'crown');
        expect(heel - toe).toBeCloseTo(mark.length, 3);
        expect(Math.abs(crown - root - mark.height)).toBeLessThan(0.06 * mark.height);
      }),
      { seed: 31 },
    );
  });

  it('slants as read, rising towards the heel where the slant is positive', () => {
    fc.assert(
      fc.property(clearMark, (mark) => {
        expect(Math.abs(slantOf(markOutline(mark, aspect), mark) - mark.slant_deg)).toBeLessThan(4);
      }),
      { seed: 32 },
    );
  });

  it('never leaves the flank', () => {
    for (const mark of [centredMark, lowToeMark, fadingMark]) {
      for (const { outline } of markContours(mark, aspect)) {
        for (const { heel, crown } of outline) {
          expect(Math.max(Math.abs(heel), Math.abs(crown))).toBeLessThanOrEqual(0.5 + 1e-9);
        }
      }
    }
  });

  it('nests its contours, growing denser inwards', () => {
    const contours = markContours(centredMark, aspect);
    for (const [index, contour] of contours.entries()) {
      const inner = contours[index + 1];
      if (inner === undefined) continue;
      expect(area(inner.outline)).toBeLessThan(area(contour.outline));
      expect(inner.opacity).toBeGreaterThan(contour.opacity);
    }
  });

  it('runs every contour over a hard edge, and only the outermost over a feathered one', () => {
    const touching = (mark: Mark, of: keyof FlankPlace, edge: number): number =>
      markContours(mark, aspect).filter(({ outline }) => outline.some((place) => Math.abs(place[of] - edge) < 1e-9))
        .length;
    expect(touching(lowToeMark, 'heel', -0.5)).toBe(10);
    expect(touching(fadingMark, 'heel', 0.5)).toBeGreaterThanOrEqual(1);
    expect(touching(fadingMark, 'heel', 0.5)).toBeLessThan(5);
    expect(touching(centredMark, 'crown', 0.5)).toBe(0);
  });

  it('cuts a square that reaches over every edge to the flank itself', () => {
    const square = [
      { heel: -2, crown: -2 },
      { heel: 2, crown: -2 },
      { heel: 2, crown: 2 },
      { heel: -2, crown: 2 },
    ];
    expect(area(cutToFlank(square))).toBeCloseTo(1, 12);
    expect(cutToFlank(square.map(({ heel, crown }) => ({ heel: heel + 9, crown })))).toEqual([]);
  });

  it('draws a mark without extent as nothing that is not a number', () => {
    const outline = markOutline({ ...centredMark, length: 0, height: 0 }, aspect);
    for (const { heel, crown } of outline) expect(Number.isFinite(heel + crown)).toBe(true);
  });
});
