import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { manyDegrees, t95, tQuantile } from '../../../../../src/shared/basics/studentT.ts';
import {
  combine,
  effectiveDegrees,
  differenceParts,
  rectangular,
  repeatability,
  resolutionOf,
  resolutionOfDifference,
} from '../../../../../src/shared/measuring/uncertainty/uncertainty.ts';

const part = fc.record(
  {
    name: fc.constant('part'),
    u: fc.double({ min: 1e-6, max: 10, noNaN: true }),
    nu: fc.integer({ min: 1, max: 500 }),
  },
  { requiredKeys: ['name', 'u'] },
);

describe('combining parts', () => {
  it('adds in squares and expands by t', () => {
    const sum = combine([{ name: 'resolution', u: 3 }, repeatability('rocks', 8, 4)]);
    expect(sum.u).toBe(5);
    expect(sum.nu).toBe(7); // derived: 5⁴ / (4⁴/3) = 7.32, truncated
    expect(sum.U95).toBe(sum.k * sum.u);
  });

  it('keeps the whole number of degrees that one part brought', () => {
    for (let nu = 1; nu < 400; nu += 1) expect(combine([{ name: 'rocks', u: 0.0013, nu }]).nu).toBe(nu);
  });

  it('knows a part without degrees fully', () => {
    expect(combine([{ name: 'resolution', u: 0.003 }])).toMatchObject({ nu: manyDegrees });
    expect(combine([{ name: 'resolution', u: 0.003 }]).k).toBeCloseTo(1.96, 3);
  });

  it('answers a zero with a zero, and nothing else', () => {
    expect(combine([])).toMatchObject({ u: 0, U95: 0, nu: manyDegrees });
    expect(combine([{ name: 'rocks', u: 0, nu: 2 }])).toMatchObject({ u: 0, U95: 0 });
  });

  it('stops at a part that cannot be', () => {
    expect(() => combine([{ name: 'rocks', u: Number.NaN }])).toThrow(/rocks/u);
    expect(() => combine([{ name: 'rocks', u: -1 }])).toThrow(RangeError);
    expect(() => combine([{ name: 'rocks', u: 1, nu: 0 }])).toThrow(RangeError);
    expect(() => tQuantile(1, 4)).toThrow(RangeError);
  });

  it('is never surer than its parts, never less sure than their sum, and forgets no scale', () => {
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        (parts, scale) => {
          const all = combine(parts);
          const least = Math.min(...parts.map((p) => p.nu ?? manyDegrees));
          const most = parts.reduce((sum, p) => sum + (p.nu ?? manyDegrees), 0);
          expect(all.u).toBeGreaterThanOrEqual(Math.max(...parts.map((p) => p.u)) * (1 - 1e-12));
          expect(all.u).toBeLessThanOrEqual(parts.reduce((sum, p) => sum + p.u, 0) * (1 + 1e-12));
          expect(all.nu).toBeGreaterThanOrEqual(least);
          expect(all.nu).toBeLessThanOrEqual(most);
          const scaled = parts.map((p) => ({ ...p, u: p.u * scale }));
          expect(effectiveDegrees(scaled)).toBeCloseTo(effectiveDegrees(parts), 3);
        },
      ),
    );
  });
});

describe('parts from what is stated', () => {
  // GUM F.2.2.1 and 4.3.7 (from memory; elementary, derived): δ/√12, a/√3; difference of two rounded readings δ/√6.
  it('takes resolution and bounds as equally likely', () => {
    expect(resolutionOf(0.01)).toBeCloseTo(0.0028867513, 10);
    expect(resolutionOfDifference(0.01)).toBeCloseTo(0.0040824829, 10);
    expect(rectangular(3)).toBeCloseTo(Math.sqrt(3), 12);
  });

  it('gives an indicator’s difference two roundings, two errors and what turning round loses', () => {
    expect(differenceParts({ resolution: 0.01, gaugeU: 0.002, hysteresis: 0.003 })).toEqual([
      { name: 'resolution', u: resolutionOfDifference(0.01) },
      { name: 'gauge', u: Math.SQRT2 * 0.002 },
      { name: 'hysteresis', u: 0.003 / Math.SQRT2 },
    ]);
    expect(differenceParts({ resolution: 0.01 }).at(-1)).toEqual({
      name: 'hysteresis, not stated',
      u: 0.02 / Math.sqrt(3),
    });
  });
});

describe('coverage factors', () => {
  it('shrink as repeats grow, and end at the normal one', () => {
    for (let nu = 1; nu < 200; nu += 1) expect(t95(nu + 1)).toBeLessThan(t95(nu));
    expect(t95(Infinity)).toBeCloseTo(1.959964, 5); // derived: Φ⁻¹(0.975)
  });
});
