import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { extremesOf } from '../../../../../src/shared/measuring/runout/extremes.ts';
import {
  addAtAngle,
  addInOrder,
  copyOf,
  filledBins,
  orderedProfile,
  type Profile,
  roundProfile,
} from '../../../../../src/shared/measuring/runout/profile.ts';
import { mean } from '../../../../../src/shared/basics/statistics.ts';

const around = (readings: number, at: (angle: number) => number): Profile => {
  const profile = roundProfile();
  for (let i = 0; i < readings; i += 1)
    addAtAngle(profile, (2 * Math.PI * i) / readings, at((2 * Math.PI * i) / readings));
  return profile;
};
const range = (profile: Profile, noise: number, resolution: number): number => {
  const found = extremesOf(profile, noise, resolution);
  return found === undefined ? Number.NaN : found.high - found.low;
};

describe('profile', () => {
  it('keeps the mean of any number of readings in a fixed number of bins', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 3000 }),
        (values) => {
          const profile = orderedProfile();
          for (const value of values) addInOrder(profile, value);
          const bins = filledBins(profile);
          expect(bins.length).toBeLessThanOrEqual(512);
          expect(bins.reduce((sum, { n }) => sum + n, 0)).toBe(values.length);
          expect(bins.reduce((sum, { n, value }) => sum + n * value, 0) / values.length).toBeCloseTo(mean(values), 9);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('keeps the order of readings when it folds', () => {
    const profile = orderedProfile();
    for (let i = 0; i < 5000; i += 1) addInOrder(profile, i);
    const heights = filledBins(profile).map(({ value }) => value);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
  });

  it('lays readings where they belong on the gear, whatever turn they are from', () => {
    const profile = roundProfile();
    addAtAngle(profile, 0.5 + 4 * Math.PI, 3);
    addAtAngle(profile, 0.5 - 2 * Math.PI, 5);
    expect(filledBins(profile)).toHaveLength(1);
    expect(filledBins(profile)[0]).toMatchObject({ value: 4, n: 2 });
  });

  it('is not changed by what comes after a copy', () => {
    const profile = around(10, () => 1);
    const copy = copyOf(profile);
    addAtAngle(profile, 0, 99);
    expect(filledBins(copy).every(({ value }) => value === 1)).toBe(true);
  });
});

describe('extremes', () => {
  it('are plain largest minus smallest where there is no noise', () => {
    expect(range(around(720, Math.cos), 0, 0.001)).toBeCloseTo(2, 4);
    expect(extremesOf(roundProfile(), 0, 0.001)).toBeUndefined();
  });

  it('are not widened by noise, where plain largest minus smallest is', () => {
    const found: number[] = [];
    const plain: number[] = [];
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = seeded(seed);
      const readings: number[] = [];
      const profile = around(600, (angle) => {
        readings.push(0.03 * Math.cos(angle) + random.normal(0, 0.01));
        return readings.at(-1) ?? 0;
      });
      found.push(range(profile, 0.01, 0.005));
      plain.push(Math.max(...readings) - Math.min(...readings));
    }
    expect(mean(plain)).toBeGreaterThan(0.095);
    expect(Math.abs(mean(found) - 0.06)).toBeLessThan(0.003);
  });

  it('are not widened where readings are few, and their doubt says how little is known', () => {
    const runs = Array.from({ length: 200 }, (_, seed) => {
      const random = seeded(seed + 100);
      const readings: number[] = [];
      const profile = around(45, (angle) => {
        readings.push(0.03 * Math.cos(angle - seed) + random.normal(0, 0.01));
        return readings.at(-1) ?? 0;
      });
      const found = extremesOf(profile, 0.01, 0.005);
      if (found === undefined) throw new Error('no extremes in 45 readings');
      const plain = Math.max(...readings) - Math.min(...readings);
      return { error: found.high - found.low - 0.06, u: found.u, plain: plain - 0.06 };
    });
    const [plain, found] = [mean(runs.map((run) => run.plain)), mean(runs.map((run) => run.error))];
    expect(plain).toBeGreaterThan(0.02);
    expect(Math.abs(found)).toBeLessThan(plain / 8);
    expect(runs.filter(({ error, u }) => Math.abs(error) <= 2 * u).length).toBeGreaterThan(180);
  });

  it('keep both lobes whole under the widest smoothing', () => {
    const surface = (angle: number) => 0.03 * Math.cos(angle) + 0.015 * Math.cos(2 * angle - 1);
    const heights = Array.from({ length: 3600 }, (_, i) => surface((i * Math.PI) / 1800));
    const whole = Math.max(...heights) - Math.min(...heights);
    // So much noise is stated that the widest place is taken; none is there, so that only the smoothing shows.
    expect(Math.abs(range(around(720, surface), 0.1, 0.001) / whole - 1)).toBeLessThan(0.01);
  });

  it('of a ride that ends at its highest place are not guessed beyond it', () => {
    const random = seeded(9);
    const profile = orderedProfile();
    for (let i = 0; i <= 400; i += 1)
      addInOrder(profile, 0.03 * Math.cos((2 * Math.PI * i) / 400) + random.normal(0, 0.002));
    expect(Math.abs(range(profile, 0.002, 0.001) - 0.06)).toBeLessThan(0.003);
  });

  it('keep a burr that is narrower than the smoothing', () => {
    const random = seeded(3);
    const burr = (angle: number) => (Math.abs(angle - 2) < 0.02 ? 0.1 : 0);
    const profile = around(1440, (angle) => 0.02 * Math.cos(angle) + burr(angle) + random.normal(0, 0.004));
    expect(range(profile, 0.004, 0.002)).toBeGreaterThan(0.1);
  });

  it('of a surface without runout are close to nothing', () => {
    const random = seeded(5);
    const profile = around(600, () => random.normal(0, 0.005));
    expect(range(profile, 0.005, 0.005)).toBeLessThan(0.005);
  });
});
