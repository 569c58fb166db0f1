import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { none } from '../../../../../src/shared/basics/result.ts';
import { mean } from '../../../../../src/shared/basics/statistics.ts';
import { aroundTheGear, meanDoubt, variationDoubt } from '../../../../../src/shared/measuring/backlash/around.ts';
import type { StationMeasured } from '../../../../../src/shared/measuring/backlash/measured.ts';
import { combine, type UncertaintyPart } from '../../../../../src/shared/measuring/uncertainty/uncertainty.ts';

const parts = (rocks: number, nu = 5): readonly UncertaintyPart[] => [
  { name: 'resolution', u: 0.0004 },
  { name: 'gauge', u: 0.003 },
  { name: 'hysteresis', u: 0.001 },
  { name: 'rocks', u: rocks, nu },
];

function station(value: number, rocks = 0.002): StationMeasured {
  const { u, U95, parts: given } = combine(parts(rocks));
  return {
    value: mm(value),
    rocks: 4,
    sd: mm(0.004),
    u: mm(u),
    U95: mm(U95),
    flags: [],
    parts: given,
    from_t: seconds(0),
    to_t: seconds(1),
  };
}

describe('the stations together', () => {
  it('say mean, ends and variation, each with a doubt of its own', () => {
    const stations = [0.2, 0.22, 0.27, 0.21].map((value) => station(value));
    const { mean: middle, min, max, variation, meanU95, variationU95 } = aroundTheGear(stations);
    expect(middle).toBeCloseTo(0.225, 12);
    expect([min, max]).toEqual([0.2, 0.27]);
    expect(variation).toBeCloseTo(0.07, 12);
    expect(meanU95).toBeLessThan(stations[0]?.U95 ?? 0);
    expect(variationU95).toBeGreaterThan(stations[0]?.U95 ?? Infinity);
  });

  it('leave out stations without a number, and say so where none has one', () => {
    const refused: StationMeasured = { ...station(0), value: none('drift'), parts: [] };
    expect(aroundTheGear([refused, station(0.2)]).mean).toBe(0.2);
    expect(aroundTheGear([refused, station(0.2)]).variation).toEqual(none('one-station'));
    expect(aroundTheGear([refused, station(0.2)]).variationU95).toEqual(none('one-station'));
    expect(aroundTheGear([refused]).meanU95).toEqual(none('nothing-measured'));
  });
});

describe('the doubt of the mean', () => {
  it('keeps whole what every station shares and divides what is their own', () => {
    const stations = [0.2, 0.22, 0.27, 0.21].map((value) => ({ value, parts: parts(0.002) }));
    const wanted = Math.hypot(0.003, 0.001, 0.0004 / 2, 0.002 / 2);
    expect(meanDoubt(stations).u).toBeCloseTo(wanted, 12);
  });

  it('is that of the station where there is one', () => {
    const [only] = [{ value: 0.2, parts: parts(0.002) }];
    expect(meanDoubt([only]).u).toBeCloseTo(combine(only.parts).u, 12);
    expect(meanDoubt([only]).nu).toBe(combine(only.parts).nu);
  });
});

describe('the doubt of the variation', () => {
  it('is that of the two ends, without what shifts both alike', () => {
    const stations = [
      { value: 0.2, parts: parts(0.001) },
      { value: 0.21, parts: parts(0.009) },
      { value: 0.3, parts: parts(0.002) },
    ];
    expect(variationDoubt(stations).u).toBeCloseTo(Math.hypot(0.0004, 0.003, 0.001, 0.0004, 0.003, 0.002), 12);
  });

  /** Stations of one true size, errors of their own: the largest less the smallest is chance alone. */
  const covered = (many: number, truths: readonly number[]): number => {
    const random = seeded(many);
    const runs = 4_000;
    const [wanted, known] = [Math.max(...truths) - Math.min(...truths), [{ name: 'rocks', u: 0.002 }]];
    let held = 0;
    for (let run = 0; run < runs; run += 1) {
      const stations = truths.map((truth) => ({ value: truth + random.normal(0, 0.002), parts: known }));
      const values = stations.map(({ value }) => value);
      const varies = Math.max(...values) - Math.min(...values);
      held += Math.abs(varies - wanted) <= variationDoubt(stations).U95 ? 1 : 0;
    }
    return held / runs;
  };

  it.each([2, 4, 8, 12])('holds for an even gear of %i stations, where the ends are picked by chance', (many) => {
    const share = covered(
      many,
      Array.from({ length: many }, () => 0.2),
    );
    // Three standard errors of 4,000 runs are 1 %.
    expect(share).toBeGreaterThan(0.94);
    expect(share).toBeLessThan(0.985);
  });

  it('holds where two stations stand out', () => {
    expect(covered(6, [0.2, 0.25, 0.25, 0.25, 0.25, 0.3])).toBeGreaterThan(0.94);
  });

  it('of two stations is t at 95 %, no more', () => {
    const two = [0.2, 0.3].map((value) => ({ value, parts: parts(0.002) }));
    expect(variationDoubt(two).U95).toBeCloseTo(combine(variationDoubt(two).parts).U95, 9);
    expect(mean(two.map(({ value }) => value))).toBe(0.25);
  });
});
