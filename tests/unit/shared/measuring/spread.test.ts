import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../hardware-sim/seeded.ts';
import { mm, seconds } from '../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../src/shared/basics/result.ts';
import type { StreamItem } from '../../../../src/shared/measuring/reading.ts';
import { finishSpread, startSpread, stepSpread } from '../../../../src/shared/measuring/spread.ts';

const settings = { resolution: mm(0.001) };
const rounded = (value: number): number => Math.round(value * 1000) / 1000;

/** Readings at 50 a second, of a gauge that shows `at` of the time with a little noise. */
function shown(from_s: number, to_s: number, at: (t: number) => number, seed: number, noise = 0.0004): StreamItem[] {
  const random = seeded(seed);
  const readings: StreamItem[] = [];
  for (let t = from_s; t < to_s; t += 0.02)
    readings.push({ t: seconds(t), value: rounded(at(t) + random.normal(0, noise)) });
  return readings;
}
const press = (t: number, pedal: 'next' | 'again' = 'next'): StreamItem => ({ t: seconds(t), pedal });

function taken(items: readonly StreamItem[]) {
  const capture = startSpread(settings);
  const events = items.flatMap((item) => stepSpread(capture, item));
  return { events, result: finishSpread(capture) };
}

/** A rest, a move, a rest under load, a press at each. */
const spreadBy = (value: number, seed: number): readonly StreamItem[] => [
  ...shown(0, 3, () => 2, seed),
  press(3),
  ...shown(3, 4, (t) => 2 + value * (t - 3), seed + 1),
  ...shown(4, 7, () => 2 + value, seed + 2),
  press(7),
  ...shown(7, 8, () => 2 + value, seed + 3),
];

describe('the spread of a case by an indicator', () => {
  it('is what lies between the two rests, within its doubt, whichever way the indicator counts', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.6, max: 0.6, noNaN: true }), fc.integer({ min: 1, max: 1e6 }), (value, seed) => {
        const { events, result } = taken(spreadBy(value, seed));
        if (isNone(result.value)) throw new Error('no spread');
        // A bound no honest doubt is beyond: three times U95.
        expect(Math.abs(result.value - Math.abs(value))).toBeLessThan(3 * result.U95);
        expect(result.U95).toBeLessThan(0.0015);
        expect(events.map(({ kind }) => kind)).toEqual(['spread-rest', 'spread-rest', 'all-done']);
      }),
      { numRuns: 60 },
    );
  });

  it('holds within U95 nineteen times in twenty', () => {
    let covered = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const value = 0.05 + seed * 0.00137;
      const { result } = taken(spreadBy(value, seed * 10));
      covered += !isNone(result.value) && Math.abs(result.value - value) <= result.U95 ? 1 : 0;
    }
    expect(covered / 200).toBeGreaterThanOrEqual(0.93);
  });

  it('waits until it stands where the press came while it moved', () => {
    const early = [
      ...shown(0, 1, (t) => 2 + 0.2 * t, 3),
      press(1),
      ...shown(1, 2, (t) => 2 + 0.2 * t, 4),
      ...shown(2, 5, () => 2.4, 5),
      press(5),
      ...shown(5, 6, () => 2.4, 6),
    ];
    const { events, result } = taken(early);
    const [first] = events;
    expect(first).toMatchObject({ kind: 'spread-rest', number: 1 });
    expect(first?.t).toBeGreaterThan(2);
    expect(result.value).toBeCloseTo(0, 2);
  });

  it('is none with one rest, and begins anew where that is pressed', () => {
    const items = spreadBy(0.2, 9);
    expect(taken(items.filter(({ t }) => t < 5)).result.value).toEqual({ none: 'too-few' });
    const { events, result } = taken([...items, press(9, 'again')]);
    expect(events.at(-1)?.kind).toBe('again');
    expect(result.value).toEqual({ none: 'too-few' });
  });
});
