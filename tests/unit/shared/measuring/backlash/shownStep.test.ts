import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { newShownStep, seeStep, stepOf } from '../../../../../src/shared/measuring/backlash/shownStep.ts';

/** Readings of a gauge that goes to and fro, on a display of this step. */
const shown = (many: number, step: number, seed = 1): readonly number[] => {
  const random = seeded(seed);
  return Array.from({ length: many }, () => Math.round(random.uniform(0, 0.2) / step) * step);
};

const after = (readings: readonly number[], told = 0.001): number => {
  const seen = newShownStep(told);
  for (const reading of readings) seeStep(seen, reading);
  return stepOf(seen);
};

describe('the step that a display shows', () => {
  it.each([0.001, 0.002, 0.005, 0.01])('is %d mm where 0.001 mm was entered', (step) => {
    expect(after(shown(200, step))).toBeCloseTo(step, 12);
  });

  it('is the one entered until enough changes have been seen, and standing still is none', () => {
    expect(after(shown(12, 0.01))).toBe(0.001);
    expect(after(Array.from({ length: 500 }, () => 0.02))).toBe(0.001);
  });

  it('is found anew when the gauge changes its range, and back again', () => {
    expect(after([...shown(100, 0.001), ...shown(100, 0.005, 2)])).toBeCloseTo(0.005, 12);
    expect(after([...shown(100, 0.005), ...shown(100, 0.001, 2)])).toBe(0.001);
  });

  it('is never taken for a coarser one by chance', () => {
    const coarser = Array.from({ length: 300 }, (_, seed) => after(shown(60, 0.001, seed))).filter(
      (step) => step > 0.001,
    );
    expect(coarser).toEqual([]);
  });
});
