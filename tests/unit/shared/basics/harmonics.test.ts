import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fitHarmonics,
  harmonicAt,
  harmonicOf,
  leastSeen,
  turned,
  widestGap,
  wrapped,
} from '../../../../src/shared/basics/harmonics.ts';
import { span } from '../../../../src/shared/basics/statistics.ts';
import { degrees, radians } from '../../../../src/shared/basics/quantity.ts';

const amplitude = fc.double({ min: 0.01, max: 1, noNaN: true });
const place = fc.double({ min: 0, max: 2 * Math.PI - 1e-9, noNaN: true });
const even = (stations: number, start = 0) =>
  Array.from({ length: stations }, (_, i) => radians(start + (2 * Math.PI * i) / stations));

describe('harmonics', () => {
  it('come back from any places that can tell them apart', () => {
    // Places pushed about by up to a third of their spacing: uneven, but never so crowded that the fit is ill-determined.
    const uneven = fc
      .array(fc.double({ min: -0.33, max: 0.33, noNaN: true }), { minLength: 6, maxLength: 40 })
      .map((pushes) => pushes.map((push, i) => radians(((i + push) * 2 * Math.PI) / pushes.length)));
    fc.assert(
      fc.property(uneven, amplitude, place, amplitude, place, (angles, one, spotOne, two, spotTwo) => {
        const made = (a: number) => 3 + one * Math.cos(a - spotOne) + two * Math.cos(2 * a - spotTwo);
        const fit = fitHarmonics(
          angles.map((angle) => ({ angle, value: made(angle) })),
          [1, 2],
        );
        expect(fit?.mean).toBeCloseTo(3, 9);
        expect(fit?.harmonics[0]?.amplitude).toBeCloseTo(one, 9);
        expect(fit?.harmonics[1]?.amplitude).toBeCloseTo(two, 9);
        expect(fit?.residualSpan).toBeLessThan(1e-9);
      }),
    );
  });

  it('stand highest at the high spot', () => {
    fc.assert(
      fc.property(amplitude, place, fc.constantFrom(1, 2, 3), (size, spot, order) => {
        const harmonic = harmonicOf(order, size * Math.cos(spot), size * Math.sin(spot));
        expect(harmonicAt(harmonic, harmonic.highSpot)).toBeCloseTo(size, 9);
        expect(harmonic.highSpot).toBeGreaterThanOrEqual(0);
        expect(harmonic.highSpot).toBeLessThan((2 * Math.PI) / order);
      }),
    );
  });

  it('keep their size when angles are counted from elsewhere', () => {
    fc.assert(
      fc.property(amplitude, place, place, fc.constantFrom(1, 2), (size, spot, by, order) => {
        const harmonic = harmonicOf(order, size * Math.cos(spot), size * Math.sin(spot));
        const moved = turned(harmonic, radians(by));
        expect(moved.amplitude).toBeCloseTo(size, 9);
        expect(harmonicAt(moved, radians(1 + by))).toBeCloseTo(harmonicAt(harmonic, radians(1)), 9);
      }),
    );
  });

  it('have no second at four equal places, and none at too few', () => {
    const flat = (angles: readonly ReturnType<typeof radians>[]) => angles.map((angle) => ({ angle, value: 1 }));
    expect(fitHarmonics(flat(even(4)), [1, 2])).toBeUndefined();
    expect(fitHarmonics(flat(even(2)), [1])).toBeUndefined();
    expect(fitHarmonics(flat(even(5)), [1, 2])).toBeDefined();
  });
});

describe('what stations can miss', () => {
  it('is never worse than said, and the worst start reaches it', () => {
    for (const lobes of [1, 2, 3]) {
      for (let stations = 3; stations <= 16; stations += 1) {
        const seen = Array.from({ length: 8 * stations }, (_, i) => {
          const start = (i * Math.PI) / (4 * stations);
          return span(even(stations).map((angle) => Math.cos(lobes * angle - start))) / 2;
        });
        expect(Math.min(...seen)).toBeCloseTo(leastSeen(stations, lobes), 12);
      }
    }
  });

  it('is everything for two lobes at four stations', () => {
    expect(leastSeen(4, 2)).toBe(0);
    expect(leastSeen(8, 2)).toBe(leastSeen(4, 1));
  });
});

describe('places round the gear', () => {
  it('wrap and know their widest gap', () => {
    expect(wrapped(-Math.PI / 2)).toBeCloseTo(1.5 * Math.PI, 12);
    expect(wrapped(-1e-20)).toBe(0);
    expect(widestGap([degrees(350), degrees(10), degrees(100)])).toBeCloseTo(degrees(250), 12);
    expect(widestGap([])).toBe(2 * Math.PI);
    expect(widestGap([radians(1)])).toBeCloseTo(2 * Math.PI, 12);
  });
});
