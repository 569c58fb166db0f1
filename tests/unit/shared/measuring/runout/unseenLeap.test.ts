import { describe, expect, it } from 'vitest';
import { finishRunout, startRunout, stepRunout } from '../../../../../src/shared/measuring/runout/runout.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';

const resolution = mm(0.001);
const reading = (t: number, value: number): StreamItem => ({
  t: seconds(t),
  value: Math.round(value / resolution) * resolution,
});

/** A turn and a bit at 50 readings a second, from a moment on. */
const turnFrom = (t: number): readonly StreamItem[] =>
  Array.from({ length: 525 }, (_, n) => reading(t + n / 50, -2 + 0.03 * Math.cos((2 * Math.PI * n) / 500)));

function measured(items: readonly StreamItem[]) {
  const capture = startRunout({ resolution, mode: 'continuous' });
  for (const item of items) stepRunout(capture, item);
  return finishRunout(capture);
}

describe('a stem that nobody saw leaping', () => {
  it('is no runout of millimetres where a busy machine brought nothing while it was put down', () => {
    const free = Array.from({ length: 50 }, (_, n) => reading(n / 50, 4.6));
    expect(isNone(measured([...free, ...turnFrom(3)]).tir)).toBe(true);
  });

  it('is no runout where it was let down slowly', () => {
    const down = Array.from({ length: 600 }, (_, n) => reading(n / 50, 4.6 - (6.6 * n) / 600));
    expect(isNone(measured([...down, ...turnFrom(12)]).tir)).toBe(true);
  });
});
