import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { partsOf } from '../../../../../src/shared/measuring/backlash/doubt.ts';
import { hear, learn, newNoise, noiseOf } from '../../../../../src/shared/measuring/backlash/noise.ts';
import { middleOf, sortFirst } from '../../../../../src/shared/measuring/backlash/order.ts';
import { longestStretch, rocksOf, type Rest } from '../../../../../src/shared/measuring/backlash/rocks.ts';
import { largestSpread, LOOKS, repeat } from '../../../../../src/shared/measuring/backlash/rule.ts';
import { addReading, endStill, newStillFinder } from '../../../../../src/shared/measuring/backlash/stills.ts';
import { newSwings, swing, wereNotHeld } from '../../../../../src/shared/measuring/backlash/swings.ts';
import { mean, sd } from '../../../../../src/shared/basics/statistics.ts';
import { combine } from '../../../../../src/shared/measuring/uncertainty/uncertainty.ts';
import { t95 } from '../../../../../src/shared/basics/studentT.ts';
import { settings } from './scripted.ts';

const rest = (side: 'low' | 'high', level: number, stretch = 0): Rest => ({
  side,
  level,
  stretch,
  readings: 10,
  squares: 0,
  length: 14,
  from: 0,
  to: 13,
  from_t: 0,
  to_t: 1,
  creep: 0,
  lingers: 0,
  still: 14,
  passed: 0,
});

describe('noise', () => {
  it('is found from the differences, whatever the stroke underneath', () => {
    const random = seeded(2);
    const noise = newNoise(0.001);
    for (let tick = 0; tick < 200; tick += 1) hear(noise, Math.sin(tick / 15) * 0.1 + random.normal(0, 0.002));
    expect(noiseOf(noise)).toBeGreaterThan(0.0014);
    expect(noiseOf(noise)).toBeLessThan(0.003);
  });

  it('never falls below what rounding does, nor above three steps', () => {
    const quiet = newNoise(0.01);
    const wild = newNoise(0.01);
    for (let tick = 0; tick < 100; tick += 1) {
      hear(quiet, 1);
      hear(wild, tick % 2 === 0 ? 5 : -5);
    }
    expect(noiseOf(quiet)).toBeCloseTo(0.0035, 12);
    expect(noiseOf(wild)).toBeCloseTo(0.03, 12);
  });

  it('trusts rests once it has them, and not a bounce among them', () => {
    const noise = newNoise(0.001);
    for (let round = 0; round < 20; round += 1) learn(noise, 8 * 0.0015 ** 2, 8);
    const before = noiseOf(noise);
    learn(noise, 8 * 0.02 ** 2, 8);
    expect(noiseOf(noise)).toBe(before);
    expect(before).toBeCloseTo(0.0015, 3);
  });
});

describe('stills', () => {
  it('end with the stroke and do not hold its first readings', () => {
    const finder = newStillFinder(0.0003);
    const values = [...Array.from({ length: 20 }, () => 1), 1.05, 1.1, 1.2];
    const stills = values.flatMap((value, tick) => addReading(finder, tick, value, 0.001) ?? []);
    expect(stills).toHaveLength(1);
    expect(stills[0]?.level).toBeCloseTo(1, 12);
    expect(stills[0]?.to).toBe(19);
  });

  it('are not ended by one wild reading', () => {
    const finder = newStillFinder(0.0003);
    for (let tick = 0; tick < 30; tick += 1) {
      expect(addReading(finder, tick, tick === 12 ? 3 : 1, 0.001)).toBeUndefined();
    }
    expect(endStill(finder, 0.001)?.level).toBeCloseTo(1, 6);
  });

  it('tell how far they crept', () => {
    const finder = newStillFinder(0.0003);
    for (let tick = 0; tick < 40; tick += 1) addReading(finder, tick, 1 + tick * 0.00002, 0.001);
    const still = endStill(finder, 0.001);
    expect(still?.creep).toBeCloseTo(0.00002 * ((still?.readings ?? 0) - 1), 9);
  });
});

describe('rocks', () => {
  it('have two rests of their own', () => {
    const row = [rest('low', 0), rest('high', 0.2), rest('low', 0.01), rest('high', 0.21), rest('low', 0)];
    expect(rocksOf(row).map(({ value }) => Number(value.toFixed(6)))).toEqual([0.2, 0.2]);
  });

  it('are not made across a break', () => {
    const row = [rest('low', 0), rest('high', 5, 1), rest('low', 4.8, 1)];
    expect(rocksOf(row).map(({ value }) => Number(value.toFixed(6)))).toEqual([0.2]);
    expect(longestStretch(row)).toHaveLength(2);
  });
});

describe('strokes', () => {
  it('are counted at their turning points, rebounds left out', () => {
    const swings = newSwings();
    for (const value of [0, 1, 0.8, 1, 0, 1, 0.7, 1, 0, 1, 0, 1, 0]) swing(swings, value, 0.15);
    expect(swings.count).toBeGreaterThanOrEqual(6);
    expect(swings.count).toBeLessThanOrEqual(9);
    expect(wereNotHeld(swings.count, 1)).toBe(true);
    expect(wereNotHeld(swings.count, 8)).toBe(false);
  });
});

describe('the rule that stops', () => {
  const rocksWith = (values: readonly number[]) =>
    values.map((value) => ({ one: rest('low', 0), other: rest('high', value), value }));

  it('asks for three rocks at least', () => {
    expect(repeat(rocksWith([0.2, 0.2]), 0.001, 0.001)).toBe(false);
    expect(repeat(rocksWith([0.2, 0.2, 0.2]), 0.001, 0.001)).toBe(true);
  });

  it('drops no rock for disagreeing', () => {
    expect(repeat(rocksWith([0.2, 0.2, 0.2, 0.2, 0.2, 0.3]), 0.001, 0.001)).toBe(false);
  });

  /** Rocks of normal scatter whose spread is what noise explains: the rule's usual customer. Derived by trial, 5,000 runs. */
  const trial = (spreadShare: number) => {
    const random = seeded(7);
    const [resolution, noise, truth] = [0.001, 0.001, 0.2];
    const bound = largestSpread(rocksWith([truth, truth, truth, truth]), resolution, noise);
    const ended: { readonly off: number; readonly covered: boolean; readonly rocks: number }[] = [];
    for (let run = 0; run < 5_000; run += 1) {
      const values = Array.from({ length: 12 }, () => random.normal(truth, spreadShare * bound));
      const rocks = LOOKS.find((look) => repeat(rocksWith(values.slice(0, look)), resolution, noise));
      if (rocks === undefined) continue;
      const taken = values.slice(0, rocks);
      const off = mean(taken) - truth;
      ended.push({ off, rocks, covered: Math.abs(off) <= (t95(rocks - 1) * sd(taken)) / Math.sqrt(rocks) });
    }
    return {
      off: mean(ended.map(({ off }) => off)) / bound,
      covered: mean(ended.map(({ covered }) => Number(covered))),
    };
  };

  it('leaves the value where it is and the interval as wide as it says', () => {
    const usual = trial(1 / 2.33);
    expect(Math.abs(usual.off)).toBeLessThan(0.012);
    expect(usual.covered).toBeGreaterThan(0.94);
  });

  it('leaves the value where it is even for rocks at the bound', () => {
    expect(Math.abs(trial(1).off)).toBeLessThan(0.025);
  });
});

describe('doubt', () => {
  it('names its parts and leaves out what was not stated', () => {
    expect(partsOf(settings(), 0.002, 4).map(({ name }) => name)).toEqual(['resolution', 'rocks']);
    const { u, parts } = combine(partsOf(settings(), 0.002, 4));
    expect(u).toBeCloseTo(Math.hypot(0.001 / Math.sqrt(6), 0.001), 12);
    expect(parts[1]?.nu).toBe(3);
  });
});

describe('order', () => {
  it('sorts the first few as the engine would, and finds their middle', () => {
    const numbers = fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(numbers, (values) => {
        const sorted = Float64Array.from(values);
        sortFirst(sorted, values.length);
        const wanted = values.toSorted((a, b) => a - b);
        expect([...sorted].map((value) => value + 0)).toEqual(wanted.map((value) => value + 0));
        const half = wanted.length >> 1;
        const middle = ((wanted[(wanted.length - 1) >> 1] ?? 0) + (wanted[half] ?? 0)) / 2;
        expect(middleOf(sorted, values.length)).toBe(middle);
      }),
      { seed: 20261125 },
    );
  });
});
