import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standsStill } from '../../../../src/shared/measuring/standstill.ts';

const step = 0.001;
/** A reading every 15 ms. */
const at = (values: readonly number[]) =>
  values.map((value, n) => ({ t: 0.015 * n, value: Math.round(value / step) * step }));
const times = (count: number) => Array.from({ length: count }, (_, n) => n / Math.max(1, count - 1));

describe('a gauge that is read', () => {
  it.each([
    ['one reading at a press', [2.4]],
    ['the same all along', [1, 1, 1, 1, 1, 1]],
    ['flicker of neighbouring steps', [1, 1.001, 1, 1.001, 1.002, 1, 1.001]],
    ['noise of many steps about one place', [1, 1.03, 0.97, 1.02, 0.98, 1.01, 0.99, 1.03, 0.97, 1]],
  ])('stands: %s', (_what, values) => {
    expect(standsStill(at(values), step)).toBe(true);
  });

  it.each([
    ['an even way', times(20).map((t) => 2.4 + 1.7 * t)],
    ['a slow way', times(30).map((t) => 0.02 * t)],
    ['the turning point of a swing', times(30).map((t) => 4.1 - 0.4 * (t - 0.5) ** 2)],
    ['a jump in the middle', [1, 1, 1, 1.5, 1.5, 1.5, 1.5]],
    ['an even way within noise', times(40).map((t, n) => 0.2 * t + (n % 2 === 0 ? 0.004 : -0.004))],
  ])('moves: %s', (_what, values) => {
    expect(standsStill(at(values), step)).toBe(false);
  });

  it('moves where readings were late and those before them lie elsewhere', () => {
    const late = [
      { t: 0, value: 1 },
      { t: 0.03, value: 1.2 },
      { t: 1.2, value: 3 },
    ];
    expect(standsStill(late, step)).toBe(false);
  });

  it('stands at a press long after the last one', () => {
    expect(
      standsStill(
        [
          { t: 0, value: 1 },
          { t: 5, value: 3 },
        ],
        step,
      ),
    ).toBe(true);
  });

  it('is judged alike wherever its zero is and whichever way it moves', () => {
    const shape = fc.array(fc.integer({ min: -60, max: 60 }), { minLength: 3, maxLength: 40 });
    fc.assert(
      fc.property(shape, fc.integer({ min: -5000, max: 5000 }), (counts, zero) => {
        const stands = standsStill(at(counts.map((count) => count * step)), step);
        expect(standsStill(at(counts.map((count) => (count + zero) * step)), step)).toBe(stands);
        expect(standsStill(at(counts.map((count) => -count * step)), step)).toBe(stands);
        expect(standsStill(at(counts.toReversed().map((count) => count * step)), step)).toBe(stands);
      }),
    );
  });
});
