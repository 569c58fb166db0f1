import { describe, expect, it } from 'vitest';
import { newtonMetres, radians, seconds } from '../../../../../src/shared/basics/quantity.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { restSeen, startRest, watchRest, zeroOf } from '../../../../../src/shared/measuring/torque/restWatch.ts';
import { finishTorque, startTorque, stepTorque } from '../../../../../src/shared/measuring/torque/torque.ts';
import { combine } from '../../../../../src/shared/measuring/uncertainty/uncertainty.ts';

const resolution = newtonMetres(0.01);

interface Pulled {
  readonly before?: number;
  readonly after?: number;
  readonly rest_s?: number;
  readonly way?: 1 | -1;
  readonly turns?: number;
  readonly withAngle?: boolean;
}

/** A rest at one zero, a start of 3 N·m, 2 N·m for some turns at half a turn a second, a rest at another zero; 50 readings a second. */
function pulled({
  before = 0,
  after = before,
  rest_s = 1,
  way = 1,
  turns = 3,
  withAngle = true,
}: Pulled): StreamItem[] {
  const items: StreamItem[] = [];
  const long_s = turns / 0.5;
  const whole_s = 2 * rest_s + 0.4 + long_s;
  for (let i = 0; i / 50 < whole_s; i += 1) {
    const t = i / 50 - rest_s;
    const zero = before + ((after - before) * i) / 50 / whole_s;
    const turning = t < 0.3 ? 10 * t : 2 + Math.exp(-(t - 0.3) / 0.03);
    const ending = Math.max(0, 2 * (1 - (t - 0.3 - long_s) / 0.1));
    const torque = t < 0 ? 0 : t < 0.3 + long_s ? turning : ending;
    const angle = Math.PI * Math.min(long_s, Math.max(0, t - 0.3));
    const value = Math.round((way * torque + zero) / resolution) * resolution;
    items.push({ t: seconds(i / 50), value, ...(withAngle ? { angle: radians(angle) } : {}) });
  }
  return items;
}

function measure(items: readonly StreamItem[]) {
  const capture = startTorque({ resolution });
  for (const item of items) stepTorque(capture, item);
  return finishTorque(capture);
}

describe('the zero of a torque gauge', () => {
  it.each([
    { off: 0.12, way: 1 },
    { off: -0.12, way: 1 },
    { off: 0.12, way: -1 },
    { off: 0.7, way: 1 },
    { off: -0.7, way: 1 },
    { off: 0.7, way: -1 },
  ] as const)('$off N·m off is taken off a pull the way $way, and told', ({ off, way }) => {
    const found = measure(pulled({ before: off, way }));
    expect(found.zero).toBeCloseTo(off, 6);
    expect(found.running).toBeCloseTo(2, 2);
    expect(found.breakaway).toBeCloseTo(3, 1);
    expect(found.flags).toContain('zero-taken-off');
  });

  it('of nought takes nothing off and says nothing', () => {
    const found = measure(pulled({}));
    expect(found.zero).toBeCloseTo(0, 9);
    expect(found.flags).toEqual([]);
  });

  it('that went during the pull is the middle of both rests, and the way between them is in the doubt', () => {
    const found = measure(pulled({ before: 0, after: 0.2 }));
    expect(found.zero).toBeCloseTo(0.1, 1.5);
    expect(found.flags).toContain('zero-moved');
    expect(found.parts.find(({ name }) => name === 'zero')?.u).toBeGreaterThan(0.15 / Math.sqrt(12));
  });

  it('and the start are seen after a rest of a seventh of a second', () => {
    const found = measure(pulled({ before: 0.04, rest_s: 0.15 }));
    // The highest reading of this start is 2.9.
    expect(found.breakaway).toBeCloseTo(2.9, 2);
    expect(found.zero).toBeCloseTo(0.04, 2);
  });

  it('is not taken from a rest of one reading where the other rest shows it', () => {
    const items = pulled({ before: 0 });
    const found = measure(items.slice(50));
    expect(found.zero).toBeCloseTo(0, 2);
    expect(found.running).toBeCloseTo(2, 2);
  });

  it('adds up: the parts of running and starting torque give their U95 again', () => {
    const found = measure(pulled({ before: 0.1, after: 0.12 }));
    expect(combine(found.parts).U95).toBeCloseTo(found.U95, 12);
    expect(combine(found.breakawayParts).U95).toBeCloseTo(found.breakawayU95, 12);
    expect(found.breakawayParts.map(({ name }) => name)).toEqual(['resolution', 'zero', 'top between two readings']);
  });
});

describe('a gauge that turned nothing', () => {
  const lying = (value: (t: number) => number, long_s: number) =>
    Array.from({ length: long_s * 50 }, (_, i) => ({ t: seconds(i / 50), value: value(i / 50) }));

  it.each([0, 0.2, 0.45, -0.45, 1.2])('at %d N·m gives no number', (level) => {
    expect(measure(lying(() => level, 8)).running).toEqual({ none: 'not-turned' });
    expect(measure(lying((t) => level + 0.01 * Math.round(Math.sin(9 * t)), 8)).running).toEqual({
      none: 'not-turned',
    });
  });

  it('gives none with presses either', () => {
    const items = [...lying(() => 0.45, 8), ...[1, 3, 5, 7].map((t) => ({ t: seconds(t), pedal: 'next' as const }))];
    expect(measure(items.toSorted((a, b) => a.t - b.t)).running).toEqual({ none: 'not-turned' });
  });

  it('nor where it is pulled and the angle stands', () => {
    const held = pulled({}).map((item) => ('value' in item ? { ...item, angle: radians(1) } : item));
    expect(measure(held).running).toEqual({ none: 'too-short' });
  });

  it('nor where it is bumped', () => {
    const bumped = (t: number) => (t > 3 && t < 3.25 ? 1.5 : -0.4);
    expect(typeof measure(lying(bumped, 8)).running).toBe('object');
  });
});

describe('a start', () => {
  const started = (ramp_s: number, rate: number) => {
    const readings: StreamItem[] = [];
    for (let t = 0; t < 9; t += 1 / rate) {
      const since = t - 1 - ramp_s;
      const pulled = t < 1 ? 0 : since < 0 ? (3 * (t - 1)) / ramp_s : 2 + Math.exp(-since / 0.05);
      readings.push({ t: seconds(t), value: t > 8 ? 0 : Math.round(100 * pulled) / 100 });
    }
    return measure(readings);
  };

  it.each([
    [0.04, 18],
    [0.06, 12],
    [0.3, 50],
    [1.2, 50],
    [2, 20],
  ])('over %d s, read %d times a second, is the top or lies within its doubt', (ramp_s, rate) => {
    const { breakaway, breakawayU95 } = started(ramp_s, rate);
    expect(typeof breakaway).toBe('number');
    expect(Math.abs(Number(breakaway) - 3)).toBeLessThanOrEqual(breakawayU95);
  });

  it('is none of a wild reading in it', () => {
    const items = pulled({}).map((item, i) => (i === 58 && 'value' in item ? { ...item, value: 9 } : item));
    expect(measure(items).breakaway).toBeCloseTo(3, 1);
  });
});

describe('a rest', () => {
  it('knows its zero the worse, the more its readings hang together', () => {
    const [white, slow] = [startRest(0.001, 0, 0.01), startRest(0.001, 0, 0.01)];
    for (let i = 1; i < 60; i += 1) {
      watchRest(white, i / 50, i % 2 === 0 ? 0.01 : -0.01, Number.NaN);
      watchRest(slow, i / 50, i % 50 < 25 ? 0.01 : -0.01, Number.NaN);
    }
    expect(restSeen(slow).u).toBeGreaterThan(2 * restSeen(white).u);
  });

  it('on one side only stands for both', () => {
    const seen = { zero: 0.03, u: 0.002, n: 20, t: 1, seconds: 0.4 };
    expect(zeroOf(seen, undefined, 0.01)).toEqual({ zero: 0.03, u: 0.002, moved: false });
    expect(zeroOf(undefined, undefined, 0.01)).toBeUndefined();
    const middle = zeroOf(seen, { ...seen, zero: 0.15 }, 0.01);
    expect(middle?.zero).toBeCloseTo(0.09, 12);
    expect(middle?.u).toBeCloseTo(Math.hypot(0.002 / Math.SQRT2, 0.12 / Math.sqrt(12)), 12);
    expect(middle?.moved).toBe(true);
  });
});
