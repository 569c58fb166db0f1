import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { lapOf } from '../../../../../src/shared/measuring/runout/lap.ts';
import { samePlaceAround, samePlaceAtEnds } from '../../../../../src/shared/measuring/runout/samePlace.ts';
import { settledPart } from '../../../../../src/shared/measuring/runout/settled.ts';
import { addToTrace, newTrace, noiseOfPoints, type Point } from '../../../../../src/shared/measuring/runout/trace.ts';
import { wanderOf } from '../../../../../src/shared/measuring/runout/wander.ts';

/** Readings `rate` times a second for `long_s`, at 8 s a turn. */
const ridden = (long_s: number, height: (t: number) => number, rate = 50): readonly Point[] =>
  Array.from({ length: Math.round(long_s * rate) }, (_, index) => {
    const t = index / rate;
    return { t, value: height(t), travel: (2 * Math.PI * t) / 8 };
  });
const lobe = (t: number): number => 0.03 * Math.cos((2 * Math.PI * t) / 8 - 1);

describe('a trace', () => {
  it('keeps a bounded number of points and their mean, however long the ride', () => {
    const trace = newTrace();
    for (let index = 0; index < 50_000; index += 1) addToTrace(trace, { t: index, value: index, travel: 0 });
    expect(trace.points.length).toBeLessThan(8192);
    const values = trace.points.map(({ value }) => value);
    expect(values).toEqual(values.toSorted((a, b) => a - b));
    expect(values[0]).toBe((trace.perPoint - 1) / 2);
  });
});

describe('the settled part of a ride', () => {
  // Down by 2 mm within half a second, a second's rest, then one turn.
  const landing = ridden(10, (t) => (t < 0.5 ? 2 * (1 - t / 0.5) : 0) + lobe(Math.max(0, t - 1.5)));

  it.each([0.1, 0.3, 0.45, 0.6])('begins where the stem stands, with a press at %s s', (press) => {
    const settled = settledPart(landing, press, 9.9, 0.001);
    if (typeof settled === 'string') throw new Error(settled);
    expect(settled[0]?.t).toBeGreaterThanOrEqual(Math.max(press, 0.48));
    expect(settled[0]?.t).toBeLessThan(0.8);
  });

  it('is none where the gear was turned while the stem came down', () => {
    const hurried = ridden(8, (t) => 2 * Math.exp(-t / 0.3) + lobe(t));
    expect(settledPart(hurried, 0.1, 7.9, 0.001)).toBe('stem-landing');
  });
});

describe('the same place a turn later', () => {
  it.each([1.02, 1.1, 1.2])(
    'tells a creep of 1 µm/s over %s turns from a tenth of a second of readings on',
    (turns) => {
      const found = samePlaceAround(ridden(8 * turns, (t) => lobe(t) + 0.001 * t, 10));
      expect(found?.apart).toBeCloseTo(0.008, 3.3);
    },
  );

  it('is not told where a sixth of the turn is missing', () => {
    expect(samePlaceAround(ridden(6.6, lobe))).toBeUndefined();
  });

  it('at the ends of a marked turn is told by lines through them', () => {
    expect(samePlaceAtEnds(ridden(8, lobe))?.apart).toBeCloseTo(0, 2.7);
  });
});

describe('noise that wanders', () => {
  /** First-order noise of 2 µm that remembers for `memory_s`, and 0.3 µm of each reading's own. */
  const wandering = (memory_s: number, seed: number): readonly Point[] => {
    const random = seeded(seed);
    let value = random.normal(0, 0.002);
    const kept = Math.exp(-0.02 / memory_s);
    return ridden(12, (t) => {
      value = value * kept + random.normal(0, 0.002 * Math.sqrt(1 - kept * kept));
      return lobe(t) + value + random.normal(0, 0.0003);
    });
  };

  it.each([0.05, 0.1, 0.3])('is found with a memory of %s s', (memory_s) => {
    const found = Array.from({ length: 12 }, (_, seed) => wanderOf(wandering(memory_s, seed))?.sd ?? 0);
    const middle = found.toSorted((a, b) => a - b)[6] ?? 0;
    expect(middle).toBeGreaterThan(0.0012);
    expect(middle).toBeLessThan(0.003);
  });

  it('has no memory worth the name where every reading’s noise is its own', () => {
    const random = seeded(4);
    const points = ridden(12, (t) => lobe(t) + random.normal(0, 0.002));
    expect(noiseOfPoints(points)).toBeCloseTo(0.002, 3.7);
    const found = wanderOf(points);
    expect(Math.hypot(found?.white ?? 0, found?.sd ?? 0)).toBeCloseTo(0.002, 3.5);
    expect((found?.sd ?? 1) * Math.sqrt(found?.memory_s ?? 1)).toBeLessThan(0.0003);
  });
});

describe('how much of a turn it was', () => {
  it.each([
    [0.5, 0.9, 1],
    [0.7, 0.8, 1],
    [1.1, 0, 0.3],
    [1.25, 0, 0.2],
  ])('of %s turns: chance of less than one between %s and %s', (turns, low, high) => {
    const lap = lapOf(ridden(8 * turns, lobe), true, 0.0005);
    expect(lap?.partChance).toBeGreaterThanOrEqual(low);
    expect(lap?.partChance).toBeLessThanOrEqual(high);
  });

  it('counts what half a turn may have left out', () => {
    const lap = lapOf(ridden(4, lobe), false, 0.0005);
    expect(lap?.moreRms).toBeGreaterThan(0.003);
  });
});
