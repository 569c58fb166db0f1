import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digitsOf, niceStep, rangeFor, shareOf } from '../../../../../src/shared/presentation/drawing/scale.ts';

describe('scales', () => {
  it('steps by 1, 2 and 5', () => {
    expect([0.13, 0.2, 0.49, 0.5, 7, 10].map(niceStep)).toEqual([0.1, 0.2, 0.2, 0.5, 5, 10]);
    expect(niceStep(Number.NaN)).toBe(1);
  });

  it('holds every value and shows room beyond both limits', () => {
    const value = fc.double({ min: 0, max: 2, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 12 }),
        fc.constantFrom('metric', 'inch'),
        (values, system) => {
          const range = rangeFor(values, { min: 0.2, max: 0.3 }, 'length', system);
          for (const each of values) expect(shareOf(each, range)).toBeGreaterThanOrEqual(0);
          for (const each of values) expect(shareOf(each, range)).toBeLessThanOrEqual(1);
          expect(range.low).toBeLessThan(0.2);
          expect(range.high).toBeGreaterThan(0.3);
          expect(range.low).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 12 },
    );
  });

  it('does not make a mountain of a gauge that stands still', () => {
    const range = rangeFor([0.2, 0.2005], undefined, 'length', 'metric');
    expect(range.high - range.low).toBeGreaterThanOrEqual(0.02);
  });

  it('goes below zero only where a value does', () => {
    expect(rangeFor([0.001], undefined, 'length', 'metric').low).toBe(0);
    expect(rangeFor([-0.05], undefined, 'length', 'metric').low).toBeLessThan(-0.05);
  });

  it('writes limits with the decimals they need and all alike', () => {
    expect(digitsOf([0.2, 0.3], 'length', 'metric')).toEqual(['0.20', '0.30']);
    expect(digitsOf([0.125, 0.2], 'length', 'metric')).toEqual(['0.125', '0.200']);
    expect(digitsOf([25.4 * 0.008, 25.4 * 0.0115], 'length', 'inch')).toEqual(['0.0080', '0.0115']);
    expect(digitsOf([1.7, 2.5], 'torque', 'metric')).toEqual(['1.7', '2.5']);
    expect(digitsOf([-0.05], 'length', 'metric')).toEqual(['−0.05']);
  });
});
