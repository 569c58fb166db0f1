import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { hear, learn, newNoise, noiseOf } from '../../../../../src/shared/measuring/backlash/noise.ts';
import { middleOf, sortFirst } from '../../../../../src/shared/measuring/backlash/order.ts';
import { rocksOf } from '../../../../../src/shared/measuring/backlash/rocks.ts';
import { addReading, endStill, newStillFinder } from '../../../../../src/shared/measuring/backlash/stills.ts';
import { newSwings, swing, wereNotHeld } from '../../../../../src/shared/measuring/backlash/swings.ts';
import { rest } from './rests.ts';

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
    const row = [rest('low', 0), rest('high', 5, { stretch: 1 }), rest('low', 4.8, { stretch: 1 })];
    expect(rocksOf(row).map(({ value }) => Number(value.toFixed(6)))).toEqual([0.2]);
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
