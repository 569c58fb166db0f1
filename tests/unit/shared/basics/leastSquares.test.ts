import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine, leastSquares } from '../../../../src/shared/basics/leastSquares.ts';

const number = fc.double({ min: -10, max: 10, noNaN: true });

describe('least squares', () => {
  it('leaves residuals square to every column', () => {
    const row = fc.tuple(number, number).map(([x, y]) => [1, x, y]);
    fc.assert(
      fc.property(fc.array(fc.tuple(row, number), { minLength: 5, maxLength: 30 }), (pairs) => {
        const rows = pairs.map(([columns]) => columns);
        const fit = leastSquares(
          rows,
          pairs.map(([, value]) => value),
        );
        fc.pre(fit !== undefined && fit.unitVariance.every((unit) => unit < 1e3));
        for (const column of [0, 1, 2]) {
          const along = rows.reduce((sum, r, i) => sum + (r[column] ?? 0) * (fit?.residuals[i] ?? 0), 0);
          expect(Math.abs(along)).toBeLessThan(1e-8);
        }
      }),
    );
  });

  it('gives an exact line back, with no doubt', () => {
    const fit = fitLine([0, 1, 2, 5], [1, 3, 5, 11]);
    expect(fit?.coefficients[0]).toBeCloseTo(1, 12);
    expect(fit?.coefficients[1]).toBeCloseTo(2, 12);
    expect(fit?.sd).toBeLessThan(1e-12);
  });

  it('has no answer where the columns cannot be told apart', () => {
    expect(fitLine([2, 2, 2], [1, 2, 3])).toBeUndefined();
    expect(fitLine([2], [1])).toBeUndefined();
    expect(leastSquares([], [])).toBeUndefined();
    expect(leastSquares([[0], [0]], [1, 1])).toBeUndefined();
  });
});
