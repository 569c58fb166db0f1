import { describe, expect, it } from 'vitest';
import { judgeGaugeCheck } from '../../../../../src/shared/job/records/gaugeCheck.ts';

const indicator = { resolution: { value: 0.01, unit: 'mm' }, statedError: { value: 0.02, unit: 'mm' } } as const;
const known = { value: 0.5, unit: 'mm' } as const;

describe('the daily check of a gauge', () => {
  it.each([
    [[1.5, 1.5, 1.51], 'within'],
    // Off by the stated error and two steps, and no further.
    [[1.54, 1.54, 1.54], 'within'],
    [[1.55, 1.55, 1.55], 'outside'],
    // Right in the mean, but it does not repeat.
    [[1.4, 1.5, 1.6], 'outside'],
    // Inches taken for millimetres.
    [[1.02, 1.02, 1.02], 'outside'],
  ] as const)('of %o over a zero of 1 mm for 0.5 mm is %s', (shown, verdict) => {
    expect(judgeGaugeCheck({ zero: 1, shown: [...shown], known }, indicator).verdict).toBe(verdict);
  });

  it('without a stated error is not judged', () => {
    const judged = judgeGaugeCheck({ zero: 0, shown: [0.5, 0.5, 0.5], known }, { resolution: indicator.resolution });
    expect(judged).toMatchObject({ verdict: 'not-stated', allowed: undefined });
  });

  it.each([
    ['a tenth and more off', [0.2, 0.2, 0.2], 'scale'],
    ['repeating worse than a few steps', [0.47, 0.5, 0.53], 'slips'],
  ])('without a stated error is still wrong when %s', (_what, shown, why) => {
    const judged = judgeGaugeCheck({ zero: 0, shown, known }, { resolution: indicator.resolution });
    expect(judged).toMatchObject({ verdict: 'outside', why: expect.stringContaining(why) });
  });

  it('of a torque gauge allows its percentage of the amount', () => {
    const gauge = { resolution: { value: 0.01, unit: 'N.m' }, statedError_percent: 2 } as const;
    const weight = { value: 10, unit: 'N.m' } as const;
    expect(judgeGaugeCheck({ zero: 0, shown: [10.2, 10.2, 10.2], known: weight }, gauge).verdict).toBe('within');
    expect(judgeGaugeCheck({ zero: 0, shown: [10.3, 10.3, 10.3], known: weight }, gauge).verdict).toBe('outside');
  });
});
