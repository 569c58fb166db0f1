import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lastOfSieve, newSieve, noiseOf, type Sieve, sift } from '../../../../src/shared/measuring/sieve.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const through = (sieve: Sieve, values: readonly number[], interval = 0.02): readonly number[] => {
  const passed: number[] = [];
  for (const [index, value] of values.entries()) {
    if (sift(sieve, index * interval, value, Number.NaN)) passed.push(sieve.value);
  }
  if (lastOfSieve(sieve)) passed.push(sieve.value);
  return passed;
};

const wave = Array.from({ length: 200 }, (_, i) => 0.05 * Math.sin(i / 15));

describe('sieve', () => {
  it('lets every reading of a smooth turn through, in order', () => {
    const sieve = newSieve(0.001);
    expect(through(sieve, wave)).toEqual(wave);
    expect(sieve.spikes).toBe(0);
  });

  it('drops one wild reading wherever it falls, and counts it', () => {
    const places = fc.integer({ min: 2, max: wave.length - 2 });
    const sizes = fc.constantFrom(-5, -0.4, 0.4, 5);
    fc.assert(
      fc.property(places, sizes, (place, size) => {
        const sieve = newSieve(0.001);
        expect(through(sieve, wave.with(place, (wave[place] ?? 0) + size))).toEqual(wave.toSpliced(place, 1));
        expect(sieve.spikes).toBe(1);
      }),
    );
  });

  it('keeps what two readings in a row agree on: that may be a burr', () => {
    const burr = wave.with(100, 0.3).with(101, 0.3);
    expect(through(newSieve(0.001), burr)).toEqual(burr);
  });

  it('keeps the turning points of a quick hand on a slow gauge', () => {
    const few = Array.from({ length: 30 }, (_, i) => 0.5 * Math.sin((2 * Math.PI * i) / 15));
    expect(through(newSieve(0.001), few, 0.33)).toEqual(few);
  });

  it('sees a gauge that changes from inches to millimetres, in either direction', () => {
    const inches = wave.map((value) => 0.02 + value / 25.4);
    const mixed = [...inches.slice(0, 90), ...inches.slice(90).map((value) => value * 25.4)];
    const there = newSieve(0.0005);
    through(there, mixed);
    expect(there.unitJump).toBe(true);
    const back = newSieve(0.0005);
    through(back, mixed.toReversed());
    expect(back.unitJump).toBe(true);
    const steady = newSieve(0.0005);
    through(steady, inches);
    expect(steady.unitJump).toBe(false);
  });

  it('takes a jump for a change of unit only where it is one, give or take the coarser rounding', () => {
    const jumped = (ratio: number, from = 0.1): boolean => {
      const sieve = newSieve(0.0005);
      const before = Array.from({ length: 30 }, (_, i) => from + 0.001 * (i % 2));
      through(sieve, [...before, ...before.map((value) => value * ratio)]);
      return sieve.unitJump;
    };
    for (const [ratio, is] of [
      [25.4, true],
      [24.9, true],
      [25.9, true],
      [24.3, false],
      [26.5, false],
      [12.7, false],
      [-25.4, false],
    ] as const) {
      expect(jumped(ratio), `${ratio}`).toBe(is);
      expect(jumped(1 / ratio, 2.54), `1/${ratio}`).toBe(is);
    }
  });

  it('judges no reading by neighbours that are half a second away', () => {
    const sent = [0, 0.3, -0.2, 0.3];
    const sieve = newSieve(0.001);
    expect(through(sieve, sent, 1)).toEqual(sent);
    expect(sieve.gaps).toBe(3);
  });

  it('tells the noise of the gauge from the surface passing by', () => {
    const random = seeded(11);
    const sieve = newSieve(0.001);
    const turn = Array.from({ length: 4000 }, (_, i) => 0.05 * Math.sin(i / 60) + random.normal(0, 0.002));
    through(sieve, turn);
    expect(noiseOf(sieve)).toBeGreaterThan(0.0018);
    expect(noiseOf(sieve)).toBeLessThan(0.0022);
    expect(noiseOf(newSieve(0.001))).toBe(0);
  });
});
