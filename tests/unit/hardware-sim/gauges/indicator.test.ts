import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyIndicator } from '../../../../hardware-sim/gauges/anyIndicator.ts';
import {
  errorCurve,
  indicator,
  mechanismOnly,
  play,
  type IndicatorTraits,
} from '../../../../hardware-sim/gauges/indicator.ts';
import { displayDecimals, stepped } from '../../../../hardware-sim/gauges/units.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const PLAIN: IndicatorTraits = {
  unit: 'mm',
  resolution: 0.001,
  noise_mm: 0,
  hysteresis_mm: 0,
  errorAt: () => 0,
  statedError_mm: 0,
  statedHysteresis_mm: 0,
  travel_mm: 10,
  sign: 1,
  zero_mm: 2,
};
const plain = (traits: Partial<IndicatorTraits> = {}) => indicator({ ...PLAIN, ...traits }, seeded(1));

describe('an indicator', () => {
  it('rounds to its display', () => {
    expect(plain().read(2.23456).value).toBe(0.235);
    expect(plain({ resolution: 0.0005 }).read(2.2346).value).toBe(0.2345);
    expect(plain({ resolution: 0.01 }).read(2.2349).value).toBe(0.23);
  });

  it('shows inches in steps of inches', () => {
    expect(plain({ unit: '[in_i]', resolution: 0.0005 }).read(2 + 25.4 * 0.01026)).toMatchObject({
      value: 0.0105,
      unit: '[in_i]',
    });
  });

  it('counts down as the stem goes in where its sign says so', () => {
    expect(plain({ sign: -1 }).read(2.2).value).toBe(-0.2);
  });

  it('stands still at either end of its travel, and says when it is overrun', () => {
    const gauge = plain();
    expect(gauge.read(-1).value).toBe(-2);
    expect(gauge.read(12)).toMatchObject({ value: 8, overload: true });
  });

  it('loses the hysteresis from a movement there and back', () => {
    const gauge = plain({ hysteresis_mm: 0.004 });
    gauge.read(2);
    const high = gauge.read(2.2).value;
    const low = gauge.read(2).value;
    expect(high - low).toBeCloseTo(0.196, 9);
  });

  it('has the noise it is said to have', () => {
    const gauge = plain({ noise_mm: 0.005, resolution: 0.0001 });
    const values = Array.from({ length: 4000 }, () => gauge.read(2.5).value);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    expect(mean).toBeCloseTo(0.5, 3);
    expect(sd).toBeGreaterThan(0.0047);
    expect(sd).toBeLessThan(0.0053);
  });

  it('can be zeroed and switched to inches while it runs', () => {
    const gauge = plain();
    gauge.read(2.254);
    gauge.pressZero();
    expect(gauge.read(2.254).value).toBe(0);
    gauge.pressUnit();
    expect(gauge.read(2.254 + 2.54)).toMatchObject({ value: 0.1, unit: '[in_i]', resolution: 0.00005 });
    gauge.pressUnit();
    expect(gauge.read(2.254 + 2.54)).toMatchObject({ value: 2.54, unit: 'mm', resolution: 0.001 });
  });
});

describe('play in the works', () => {
  it('follows half its width behind and never by more', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 1 }), (places) => {
        const lag = play(0.3);
        for (const place of places) expect(Math.abs(lag(place) - place)).toBeLessThanOrEqual(0.15 + 1e-12);
      }),
    );
  });
});

describe('the error curve', () => {
  it('stays within the stated error', () => {
    fc.assert(
      fc.property(fc.integer(), fc.double({ min: 0, max: 12, noNaN: true }), (seed, stem_mm) => {
        expect(Math.abs(errorCurve(0.005, seeded(seed))(stem_mm))).toBeLessThanOrEqual(0.005 + 1e-12);
      }),
    );
  });

  it('is what the works alone add', () => {
    const works = mechanismOnly({ ...PLAIN, errorAt: (stem_mm) => stem_mm / 1000 });
    expect(works(4)).toBeCloseTo(2.004, 12);
  });
});

describe('any indicator', () => {
  it('keeps its real hysteresis and noise within what is stated of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), (seed) => {
        const traits = anyIndicator(seeded(seed));
        const step_mm = traits.resolution * (traits.unit === 'mm' ? 1 : 25.4);
        expect(traits.hysteresis_mm).toBeLessThanOrEqual(traits.statedHysteresis_mm);
        expect(traits.noise_mm).toBeLessThanOrEqual(2 * step_mm);
        expect(step_mm).toBeGreaterThanOrEqual(0.0005 - 1e-9);
      }),
    );
  });
});

describe('steps of a display', () => {
  it.each([
    [0.01, 2],
    [0.005, 3],
    [0.0005, 4],
    [0.00002, 5],
    [0.00005, 5],
    [0.05, 2],
    [1, 0],
    [0.25, 2],
  ])('of %f need %i decimals', (resolution, decimals) => {
    expect(displayDecimals(resolution)).toBe(decimals);
  });

  it('carry no float dust and no minus before zero', () => {
    expect(stepped(0.30000000000000004, 0.001)).toBe(0.3);
    expect(Object.is(stepped(-0.0001, 0.001), 0)).toBe(true);
  });
});
