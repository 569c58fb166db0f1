import oracle from '@stdlib/stats-base-dists-t-quantile';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { manyDegrees, t95, tQuantile } from '../../../../src/shared/basics/studentT.ts';

/** How far two numbers lie apart, of the second. */
const apart = (a: number, b: number): number => Math.abs(a / b - 1);

describe("the quantile of Student's t", () => {
  it('agrees to ten digits with a library that computes it another way, over all it is asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 0.9999, noNaN: true }),
        fc.double({ min: Math.log(0.3), max: Math.log(manyDegrees), noNaN: true }),
        (p, lnNu) => apart(tQuantile(p, Math.exp(lnNu)), oracle(p, Math.exp(lnNu))) < 1e-10,
      ),
      { numRuns: 2000 },
    );
  });

  it('has its exact value with one and two degrees of freedom', () => {
    // derived: tan(π(p − ½)), and (2p − 1)·√(2 / (4p(1 − p)))
    for (const p of [0.6, 0.75, 0.9, 0.975, 0.995, 0.9999]) {
      expect(apart(tQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)))).toBeLessThan(1e-12);
      expect(apart(tQuantile(p, 2), (2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p))))).toBeLessThan(1e-12);
    }
  });

  it('falls as degrees are added and rises with the probability, without a step where the way of computing changes', () => {
    for (let nu = 0.5; nu < 400; nu *= 1.03) {
      expect(t95(nu * 1.03)).toBeLessThan(t95(nu));
      let last = 0;
      for (let p = 0.6; p < 0.9999; p += 0.0021) {
        const t = tQuantile(p, nu);
        expect(t).toBeGreaterThan(last);
        last = t;
      }
    }
  });

  it('holds the degrees of freedom where the spread is fully known', () => {
    expect(tQuantile(0.975, Infinity)).toBe(tQuantile(0.975, manyDegrees));
    // the normal quantile at 0.975, from any table
    expect(tQuantile(0.975, Infinity)).toBeCloseTo(1.959964, 5);
  });

  it('refuses what is no question about a tail', () => {
    for (const [p, nu] of [
      [0.5, 4],
      [1, 4],
      [0.9, 0],
      [0.9, Number.NaN],
    ] as const)
      expect(() => tQuantile(p, nu)).toThrow(RangeError);
  });
});
