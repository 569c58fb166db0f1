import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../hardware-sim/seeded.ts';
import { periodOf } from '../../../../src/shared/basics/periodicity.ts';

const swinging = (many: number, period: number, size = 0.1, phase = 0): number[] =>
  Array.from({ length: many }, (_, index) => 2 + size * Math.cos((2 * Math.PI * index) / period + phase));

describe('the period of a torque', () => {
  it('is found once it was seen three times, wherever the wave begins', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 25, max: 90 }),
        fc.double({ min: 3, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        (period, times, phase) => {
          const found = periodOf(swinging(Math.ceil(period * times), period, 0.1, phase), 10, 0.001);
          expect(Math.abs((found ?? 0) - period)).toBeLessThanOrEqual(2);
        },
      ),
    );
  });

  it('is not found where only two of it were seen', () => {
    expect(periodOf(swinging(100, 50), 10, 0.001)).toBeUndefined();
  });

  it('does not care for a straight drift below it', () => {
    const drifting = swinging(200, 50).map((value, index) => value + 0.01 * index);
    expect(periodOf(drifting, 10, 0.001)).toBe(50);
  });

  it('is the shorter one where a torque looks like itself at every turn', () => {
    expect(periodOf(swinging(400, 50), 10, 0.001)).toBe(50);
  });

  it('is not that of a tremor quicker than any turn', () => {
    expect(periodOf(swinging(200, 6), 10, 0.001)).toBeUndefined();
  });

  it('is not found in noise, nor in a torque that stands', () => {
    const random = seeded(3);
    const noisy = Array.from({ length: 200 }, () => 2 + random.normal(0, 0.02));
    expect(periodOf(noisy, 10, 0.02)).toBeUndefined();
    expect(
      periodOf(
        Array.from({ length: 200 }, () => 2),
        10,
        0,
      ),
    ).toBeUndefined();
  });

  it.each([0, 1, 2, 5])('is not found in %i values', (many) => {
    expect(periodOf(swinging(many, 3), 1, 0)).toBeUndefined();
  });
});
