import { describe, expect, it } from 'vitest';
import { newtonMetres, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { newPlateau, watchPlateau } from '../../../../../src/shared/measuring/torque/plateau.ts';
import { finishTorque, startTorque, stepTorque } from '../../../../../src/shared/measuring/torque/torque.ts';

const step = 0.01;
const shown = (value: number) => Math.round(value / step) * step;

interface Stroke {
  readonly peak: number;
  readonly turns_s: number;
}

/** A shaft of 1 N·m and a little ripple, in strokes with rests between; no reading goes beyond `end`. */
function measured(strokes: readonly Stroke[], end = Infinity, early = 0) {
  const capture = startTorque({ resolution: newtonMetres(step) });
  let t = 0;
  const send = (value: number): void => {
    stepTorque(capture, { t: seconds(t), value: shown(Math.min(end, value)) });
    t += 0.01;
  };
  const lasts = (long_s: number, at: (s: number) => number): void => {
    for (let s = 0; s < long_s; s += 0.01) send(at(s));
  };
  lasts(0.6, () => 0);
  for (const { peak, turns_s } of strokes) {
    lasts(0.2, (s) => (peak * s) / 0.2);
    lasts(turns_s, (s) => {
      const hump = early === 0 ? 0 : early * Math.exp(-(((s - 0.6) / 0.08) ** 2));
      return 1 + 0.05 * Math.sin(8 * s) + (peak - 1) * Math.exp(-s / 0.04) + hump;
    });
    lasts(0.5, () => 0);
  }
  return finishTorque(capture);
}

describe('the start of a shaft', () => {
  it('counts the hardest, though its stroke was over too soon to say what the shaft runs at', () => {
    const found = measured([
      { peak: 1.5, turns_s: 2 },
      { peak: 2.1, turns_s: 0.4 },
    ]);
    expect(Math.abs(Number(found.breakaway) - 2.1)).toBeLessThan(found.breakawayU95);
    expect(Number(found.breakaway)).toBeGreaterThan(1.8);
  });

  it('is not that of a knock', () => {
    const found = measured([
      { peak: 1.5, turns_s: 2 },
      { peak: 4, turns_s: 0.05 },
    ]);
    expect(Number(found.breakaway)).toBeLessThan(1.7);
  });

  it('has no number where the gauge came to its end first', () => {
    expect(isNone(measured([{ peak: 2, turns_s: 2 }], 1.3).breakaway)).toBe(true);
    expect(isNone(measured([{ peak: 2, turns_s: 2 }], 2.5).breakaway)).toBe(false);
  });

  it('is doubted where a hard place soon after it stands above it', () => {
    const parts = measured([{ peak: 1.3, turns_s: 3 }], Infinity, 0.6).breakawayParts;
    expect(parts.find(({ name }) => name === 'earlier top')?.u ?? 0).toBeGreaterThan(0.1);
    expect(measured([{ peak: 1.3, turns_s: 3 }]).breakawayParts.some(({ name }) => name === 'earlier top')).toBe(false);
  });
});

describe('the end of a gauge', () => {
  const endOf = (readings: readonly number[]): number => {
    const plateau = newPlateau();
    for (const reading of readings) watchPlateau(plateau, reading, step);
    return plateau.end;
  };

  it('is a plateau that was climbed in one step and left again', () => {
    expect(endOf([0, 0.3, 0.6, 0.8, 0.8, 0.8, 0.7, 0.6, 0.5])).toBe(0.8);
  });

  it.each([
    ['a gauge that repeats each reading', [0, 0, 0, 0.4, 0.4, 0.4, 0.8, 0.8, 0.8, 0.7, 0.7, 0.7, 0.6, 0.6, 0.6]],
    ['a slow top', [0, 0.3, 0.5, 0.6, 0.62, 0.63, 0.63, 0.63, 0.62, 0.6]],
    ['a top of one reading', [0, 0.3, 0.6, 0.8, 0.7, 0.6, 0.5]],
  ])('is not %s', (_, readings) => {
    expect(endOf(readings)).toBe(-Infinity);
  });
});
