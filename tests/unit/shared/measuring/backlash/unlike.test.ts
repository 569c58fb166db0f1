import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { isNone, none } from '../../../../../src/shared/basics/result.ts';
import {
  measureBacklash,
  type BacklashSettings,
  type StationMeasured,
} from '../../../../../src/shared/measuring/backlash/capture.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { script, settings } from './scripted.ts';

const only = (items: Iterable<StreamItem>, given: BacklashSettings = settings()): StationMeasured => {
  const { stations } = measureBacklash(items, given);
  const [station] = stations;
  if (station === undefined || stations.length !== 1) throw new Error(`${stations.length} stations instead of one`);
  return station;
};

/** Rocks whose rests are off by a normal scatter, each side with its own. */
function scattered(rocks: number, low_mm: number, high_mm: number, seed: number) {
  const random = seeded(seed);
  const written = script().rest(2);
  for (let rock = 0; rock < rocks; rock += 1) {
    written.rocks(1, 2 + random.normal(0, low_mm), 2.2 + random.normal(0, high_mm));
  }
  return written.lift(2).items;
}

describe('hands that scatter', () => {
  const stations = Array.from({ length: 40 }, (_, seed) => only(scattered(8, 0.002, 0.002, seed)));

  it('get their number after four rocks, however the rocks agree', () => {
    for (const { value, rocks } of stations) {
      expect(isNone(value)).toBe(false);
      expect([4, 8]).toContain(rocks);
    }
    expect(stations.filter(({ rocks }) => rocks === 4).length).toBeGreaterThan(34);
  });

  it('have their scatter in the doubt, and it holds', () => {
    const off = stations.map(({ value, U95 }) => Math.abs((isNone(value) ? Number.NaN : value) - 0.2) / U95);
    expect(off.filter((share) => share <= 1).length).toBeGreaterThanOrEqual(38);
    expect(Math.max(...off)).toBeLessThan(3);
    const quiet = only(script().rest(2).rocks(6, 2, 2.2).lift(2).items);
    for (const { U95 } of stations) expect(U95).toBeGreaterThan(quiet.U95);
  });

  it('are flagged when they scatter unusually, and refused when nothing was a stop', () => {
    const flagged = Array.from({ length: 12 }, (_, seed) => only(scattered(8, 0.009, 0.009, seed)));
    const numbers = flagged.filter(({ value }) => !isNone(value));
    expect(numbers.length).toBeGreaterThan(6);
    expect(numbers.filter(({ flags }) => flags.includes('not-repeatable')).length).toBeGreaterThan(numbers.length / 2);
    expect(only(scattered(8, 0.03, 0.03, 1)).value).toEqual(none('not-repeatable'));
  });
});

describe('one side that scatters', () => {
  it('by little beside the backlash is told, and counted', () => {
    const station = only(scattered(8, 0.0001, 0.006, 2));
    expect(isNone(station.value)).toBe(false);
    expect(station.rocks).toBe(8);
    expect(station.flags).toContain('one-sided');
    expect(station.why).toMatch(/One side repeats/u);
  });

  it('by much is refused', () => {
    expect(only(scattered(8, 0.0001, 0.03, 2)).value).toEqual(none('one-sided'));
  });
});

describe('a drift', () => {
  const drifting = (perRock: number) => {
    const written = script().rest(2);
    for (let rock = 0; rock < 7; rock += 1) written.rocks(1, 2 + rock * perRock, 2.2 + (rock + 0.5) * perRock);
    return written.lift(2).items;
  };

  it('that neighbours take out leaves the number where it is, and is told', () => {
    const station = only(drifting(0.006));
    // Rests go by half of it each, low first: the high ones stand on the same line.
    expect(station.value).toBeCloseTo(0.2 + 0.006, 3);
    expect(station.flags).toContain('drift');
  });

  it('that is small is not worth a word', () => {
    expect(only(drifting(0.0005)).flags).toEqual([]);
  });

  it('that no hand would wait for is refused', () => {
    expect(only(drifting(0.03)).value).toEqual(none('drift'));
  });
});

describe('rests that creep', () => {
  const creeping = (inwards_mm: number) => {
    const written = script().rest(2);
    for (let rock = 0; rock < 6; rock += 1) {
      written.go(2.2).rest(2.2, 1, -inwards_mm).go(2).rest(2, 1, inwards_mm);
    }
    return written.lift(2).items;
  };

  it('inwards are let go of, outwards as far are pressed on and get a number with a part for it', () => {
    expect(only(creeping(0.02)).value).toEqual(none('not-held'));
    const pressed = only(creeping(-0.02));
    expect(isNone(pressed.value)).toBe(false);
    expect(pressed.parts.map(({ name }) => name)).toContain('creep');
  });
});

describe('the end of the travel', () => {
  const nearEnd = (gaugeU?: number) =>
    only(
      script().rest(2).rocks(6, 2, 2.2).lift(3).items,
      settings({
        travel: { from: mm(1.99), to: mm(9) },
        ...(gaugeU === undefined ? {} : { gaugeU: mm(gaugeU) }),
      }),
    );

  it('is as near as the gauge may err: twice its standard uncertainty', () => {
    expect(nearEnd(0.006).value).toEqual(none('end-of-travel'));
    expect(nearEnd(0.003).value).toBeCloseTo(0.2, 3);
    expect(nearEnd().value).toBeCloseTo(0.2, 3);
  });
});
