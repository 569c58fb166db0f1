import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../../../src/shared/measuring/uncertainty/verdict.ts';
import { none } from '../../../../../src/shared/basics/result.ts';

const window = { min: 0.1, max: 0.2 };

describe('simple rule', () => {
  it.each([
    [0.15, 'within', false],
    [0.2, 'within', true],
    [0.1, 'within', true],
    [0.195, 'within', true],
    [0.205, 'outside', true],
    [0.23, 'outside', false],
    [0.08, 'outside', false],
  ] as const)('%d in 0.1…0.2 with U95 0.012 is %s, close call %s', (value, verdict, closeCall) => {
    expect(judge(value, 0.012, window, 'simple')).toMatchObject({ verdict, closeCall });
  });

  it('counts a reading at the limit as within, however the fractions fell', () => {
    expect(judge(0.1 + 0.2, 0, { max: 0.3 }, 'simple')).toEqual({ verdict: 'within', closeCall: false });
    expect(judge(0.3 - 0.1, 0, { min: 0.2 }, 'simple')).toEqual({ verdict: 'within', closeCall: false });
    expect(judge(0.008 * 25.4, 0, { max: 0.2032 }, 'simple').verdict).toBe('within');
  });

  it('says by how much and to which side a limit is broken', () => {
    expect(judge(0.23, 0, window, 'simple').beyond).toBeCloseTo(0.03, 12);
    expect(judge(0.08, 0, window, 'simple').beyond).toBeCloseTo(-0.02, 12);
    expect(judge(0.15, 0, window, 'simple')).not.toHaveProperty('beyond');
  });
});

describe('guarded rule', () => {
  it.each([
    [0.15, 'within'],
    [0.188, 'within'],
    [0.189, 'too-close'],
    [0.211, 'too-close'],
    [0.212, 'too-close'],
    [0.213, 'outside'],
    [0.111, 'too-close'],
    [0.087, 'outside'],
  ] as const)('%d in 0.1…0.2 with U95 0.012 is %s', (value, verdict) => {
    expect(judge(value, 0.012, window, 'guarded').verdict).toBe(verdict);
  });

  it('finds nothing within when the window is narrower than the doubt on both sides', () => {
    expect(judge(0.15, 0.06, window, 'guarded').verdict).toBe('too-close');
  });
});

describe('both rules', () => {
  const cases = fc.record({
    value: fc.double({ min: -1, max: 1, noNaN: true }),
    U95: fc.double({ min: 0, max: 0.5, noNaN: true }),
    min: fc.double({ min: -0.5, max: 0, noNaN: true }),
    width: fc.double({ min: 0, max: 0.5, noNaN: true }),
  });

  it('agree, except that guarded answers too close exactly for some of the close calls', () => {
    fc.assert(
      fc.property(cases, ({ value, U95, min, width }) => {
        const limit = { min, max: min + width };
        const simple = judge(value, U95, limit, 'simple');
        const guarded = judge(value, U95, limit, 'guarded');
        expect(guarded.closeCall).toBe(simple.closeCall);
        if (guarded.verdict !== 'too-close') expect(guarded.verdict).toBe(simple.verdict);
        if (simple.closeCall && U95 > 1e-6) expect(guarded.verdict).toBe('too-close');
      }),
    );
  });

  it('mirror when everything changes sign', () => {
    fc.assert(
      fc.property(cases, fc.constantFrom('simple' as const, 'guarded' as const), ({ value, U95, min, width }, rule) => {
        const here = judge(value, U95, { min, max: min + width }, rule);
        const there = judge(-value, U95, { min: -(min + width), max: -min }, rule);
        expect(there.verdict).toBe(here.verdict);
        expect(there.beyond ?? 0).toBeCloseTo(-(here.beyond ?? 0), 9);
      }),
    );
  });

  it('judge nothing that was not measured', () => {
    expect(judge(none('drift'), 0.1, window, 'guarded')).toEqual({ verdict: 'not-measured', closeCall: false });
  });

  it('name what would settle a close call by the larger doubt', () => {
    const gauge = { name: 'resolution', u: 0.004 };
    const rocks = { name: 'rocks', u: 0.003, nu: 3 };
    const settle = (...parts: (typeof gauge | typeof rocks)[]) => judge(0.199, 0.01, window, 'simple', parts).settle;
    expect(settle(gauge, rocks)).toBe('finer-gauge');
    expect(settle(gauge, { ...rocks, u: 0.005 })).toBe('more-repeats');
    expect(judge(0.15, 0.01, window, 'simple', [gauge])).not.toHaveProperty('settle');
    expect(judge(0.199, 0.01, window, 'simple')).not.toHaveProperty('settle');
  });

  it('stop at a limit without an end and at numbers that are none', () => {
    expect(() => judge(0.1, 0.01, {}, 'simple')).toThrow(RangeError);
    expect(() => judge(Number.NaN, 0.01, window, 'simple')).toThrow(RangeError);
    expect(() => judge(0.1, Number.NaN, window, 'simple')).toThrow(RangeError);
  });
});
