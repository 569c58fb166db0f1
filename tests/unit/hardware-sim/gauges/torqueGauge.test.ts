import { describe, expect, it } from 'vitest';
import { torqueGauge, type TorqueTraits } from '../../../../hardware-sim/gauges/torqueGauge.ts';
import { roundStep } from '../../../../hardware-sim/gauges/units.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const TRAITS: TorqueTraits = {
  unit: 'N.m',
  resolution: 0.01,
  noise_Nm: 0,
  error_percent: 0,
  statedError_percent: 2,
  range_Nm: 20,
  sign: 1,
};
const gauge = (traits: Partial<TorqueTraits> = {}) => torqueGauge({ ...TRAITS, ...traits }, seeded(1));

describe('a torque gauge', () => {
  it('rounds, errs by its percentage and counts its way', () => {
    expect(gauge().read(2.3456).value).toBe(2.35);
    expect(gauge({ error_percent: 2 }).read(10).value).toBe(10.2);
    expect(gauge({ sign: -1 }).read(2).value).toBe(-2);
  });

  it('shows inch-pounds', () => {
    // 1 N·m = 8.850745791327185 lbf·in, as derived from the exact foot-pound definitions.
    expect(gauge({ unit: '[lbf_av].[in_i]', resolution: 0.1 }).read(2)).toMatchObject({ value: 17.7 });
  });

  it('stands at the end of its range and says so', () => {
    expect(gauge().read(-31)).toMatchObject({ value: -20, overload: true });
  });

  it('changes its unit with a step near the old one', () => {
    const both = gauge();
    both.pressUnit();
    expect(both.read(2)).toMatchObject({ value: 17.7, unit: '[lbf_av].[in_i]', resolution: 0.1 });
    both.pressUnit();
    expect(both.read(2)).toMatchObject({ value: 2, unit: 'N.m', resolution: 0.01 });
  });

  it('is zeroed where it stands', () => {
    const one = gauge();
    one.read(0.4);
    one.pressZero();
    expect(one.read(1.4).value).toBe(1);
  });
});

describe('a tidy step', () => {
  it.each([
    [0.0885, 0.1],
    [0.0113, 0.01],
    [0.0000394, 0.00005],
    [0.00254, 0.002],
    [0.3, 0.2],
    [7, 5],
    [7.1, 10],
  ])('near %f is %f', (step, tidy) => {
    expect(roundStep(step)).toBe(tidy);
  });
});
