import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addTo, mean, median, noMoments, sd, sdOf, span } from '../../../../src/shared/basics/statistics.ts';

const readings = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 3, maxLength: 60 });

describe('statistics of readings', () => {
  it('grow one at a time to the same answer', () => {
    fc.assert(
      fc.property(readings, (values) => {
        const grown = noMoments();
        for (const value of values) addTo(grown, value);
        expect(grown.mean).toBeCloseTo(mean(values), 10);
        expect(sdOf(grown)).toBeCloseTo(sd(values), 10);
      }),
    );
  });

  it('move with the zero of the gauge and not with it', () => {
    fc.assert(
      fc.property(readings, fc.double({ min: -5, max: 5, noNaN: true }), (values, zero) => {
        const moved = values.map((value) => value + zero);
        expect(median(moved)).toBeCloseTo(median(values) + zero, 9);
        expect(sd(moved)).toBeCloseTo(sd(values), 9);
        expect(span(moved)).toBeCloseTo(span(values), 9);
      }),
    );
  });

  it('let one wild reading move the mean but not the middle', () => {
    const values = [0.2, 0.21, 0.2, 0.19, 5.08];
    expect(median(values)).toBe(0.2);
    expect(mean(values)).toBeGreaterThan(1);
  });

  it('see no span in nothing', () => {
    expect(span([])).toBe(0);
  });
});
