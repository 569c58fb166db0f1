import { describe, expect, it } from 'vitest';
import { degrees, mm, newtonMetres, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { measureItems, type MeasureSettings } from '../../../../../src/shared/job/captures/measureItems.ts';
import { stepOf } from '../../../../../src/shared/job/captures/stepOf.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { armShare } from '../../../../../src/shared/measuring/torque/pullScale.ts';
import { script } from '../../measuring/backlash/scripted.ts';

interface Answer {
  readonly stations: readonly { readonly value_mm: unknown; readonly U95_mm: number; readonly flags: string[] }[];
  readonly mean_mm: number;
  readonly variation_mm: number;
  readonly variationU95_mm: number;
  readonly tir_mm: number;
  readonly U95_mm: number;
  readonly running_Nm: number;
  readonly breakaway_Nm: number;
  readonly breakawayU95_Nm: number;
  readonly U95_Nm: number;
  readonly limits: Readonly<Record<string, string>>;
  readonly closeCalls: readonly string[];
}

const plain = { rule: 'simple', basis: 'running', limits: {} } as const;
const measured = (items: readonly StreamItem[], more: Partial<MeasureSettings> & Pick<MeasureSettings, 'kind'>) => {
  const { answer, measured } = measureItems(items, { ...plain, resolution: 0.001, ...more });
  return { ...(answer as Answer), measured };
};

/** Four teeth rocked between 1 mm and so many mm above. */
function rocked(...free_mm: readonly number[]): readonly StreamItem[] {
  const stream = script();
  stream.go(1);
  for (const free of free_mm) stream.lift(1).rocks(6, 1, 1 + free);
  return stream.items;
}
const even = rocked(0.2, 0.2, 0.2, 0.2);
const uneven = rocked(0.2, 0.22, 0.24, 0.2);

describe('a recorded backlash', () => {
  it('is told station by station, with what they make together', () => {
    const { stations, mean_mm, variation_mm, measured: any } = measured(uneven, { kind: 'backlash' });
    expect(stations.map(({ value_mm }) => Number(value_mm).toFixed(2))).toEqual(['0.20', '0.22', '0.24', '0.20']);
    expect(mean_mm).toBeCloseTo(0.215, 2);
    expect(variation_mm).toBeCloseTo(0.04, 2);
    expect(any).toBe(true);
  });

  it('holds every station against the window, and the spread against its own limit; the worst decides', () => {
    const limitsOf = (limits: Readonly<Record<string, number>>) =>
      measured(uneven, { kind: 'backlash', limits }).limits;
    expect(limitsOf({})).toEqual({});
    expect(limitsOf({ min: 0.15 })).toEqual({ window: 'within' });
    expect(limitsOf({ max: 0.23 })).toEqual({ window: 'outside' });
    expect(limitsOf({ min: 0.21, max: 0.3 })).toEqual({ window: 'outside' });
    expect(limitsOf({ 'max-variation': 0.06 })).toEqual({ variation: 'within' });
    expect(limitsOf({ min: 0.1, 'max-variation': 0.02 })).toEqual({ window: 'within', variation: 'outside' });
  });

  it('is too close to call by its own doubt, and under the guarded rule decides so', () => {
    const { stations, variationU95_mm } = measured(even, { kind: 'backlash' });
    const largest = Math.max(...stations.map(({ value_mm }) => Number(value_mm)));
    const near = { max: largest + 0.3 * (stations[0]?.U95_mm ?? 0) };
    expect(variationU95_mm).toBeGreaterThan(0);
    expect(measured(even, { kind: 'backlash', limits: near })).toMatchObject({
      limits: { window: 'within' },
      closeCalls: ['window'],
    });
    expect(measured(even, { kind: 'backlash', limits: near, rule: 'guarded' }).limits).toEqual({ window: 'too-close' });
    expect(measured(even, { kind: 'backlash', limits: { max: 0.5 }, rule: 'guarded' })).toMatchObject({
      limits: { window: 'within' },
      closeCalls: [],
    });
  });

  it('takes in what is said of the gauge', () => {
    const U95 = (more: Partial<MeasureSettings>) =>
      measured(even, { kind: 'backlash', ...more }).stations[0]?.U95_mm ?? 0;
    const least = U95({ hysteresis: 0 });
    expect(U95({ gaugeU: 0.005, hysteresis: 0 })).toBeGreaterThan(1.96 * Math.SQRT2 * 0.005);
    expect(U95({ hysteresis: 0.01 })).toBeGreaterThan(least + 0.005);
    // Not stated, one step is assumed.
    expect(U95({})).toBeGreaterThan(least + 0.0005);
    expect(U95({})).toBeLessThan(U95({ hysteresis: 0.003 }));
  });

  it('takes the display’s step off the readings where nobody says it', () => {
    const coarse = even.map((item) =>
      'value' in item ? { ...item, value: Math.round(item.value * 100) / 100 } : item,
    );
    const step = stepOf(coarse.flatMap((item) => ('value' in item ? [item.value] : [])));
    expect(step).toBeGreaterThan(0.0099);
    const { answer } = measureItems(coarse, { ...plain, kind: 'backlash' });
    expect(answer).toEqual(measureItems(coarse, { ...plain, kind: 'backlash', resolution: step }).answer);
    expect(answer).not.toEqual(measureItems(coarse, { ...plain, kind: 'backlash', resolution: 0.001 }).answer);
  });

  it('is no measurement where no station has a number, and judges none', () => {
    const still = script().go(1).rest(1, 8).items;
    const nothing = measured(still, { kind: 'backlash', limits: { max: 0.3, 'max-variation': 0.1 } });
    expect(nothing.measured).toBe(false);
    expect(Object.values(nothing.limits).every((verdict) => verdict === 'not-measured')).toBe(true);
  });

  it('with one station refused is told, and is not within', () => {
    const stream = script();
    stream.go(1);
    for (let tooth = 0; tooth < 4; tooth += 1) {
      stream.lift(1);
      if (tooth === 1) for (const far of [1.2, 1.3, 1.15, 1.4, 1.22, 1.35, 1.1, 1.3]) stream.rocks(1, 1, far);
      else stream.rocks(6, 1, 1.2);
    }
    stream.lift(1);
    const some = measured(stream.items, { kind: 'backlash', limits: { min: 0.1, max: 0.3 } });
    expect(some.stations.some(({ value_mm }) => typeof value_mm !== 'number')).toBe(true);
    expect(some).toMatchObject({ measured: true, limits: { window: 'not-measured' } });
  });
});

/** A turn and a tenth in twelve seconds over a face that runs out by 0.04 mm, after a moment's rest. */
const turned: readonly StreamItem[] = Array.from({ length: 750 }, (_, i) => {
  const t = i / 50;
  const angle = Math.min(396, Math.max(0, ((t - 1) / 12) * 396));
  const value = 1 + 0.02 * Math.cos((angle * Math.PI) / 180);
  return { t: seconds(t), value: Math.round(value * 1000) / 1000, angle: degrees(angle) };
});

describe('a recorded runout', () => {
  it('is told with its doubt and held against the largest that is allowed, by either name', () => {
    const { tir_mm, U95_mm, measured: any } = measured(turned, { kind: 'runout' });
    expect(tir_mm).toBeCloseTo(0.04, 2);
    expect(U95_mm).toBeGreaterThan(0);
    expect(any).toBe(true);
    const limitsOf = (limits: Readonly<Record<string, number>>) => measured(turned, { kind: 'runout', limits }).limits;
    expect(limitsOf({ max: 0.08 })).toEqual({ runout: 'within' });
    expect(limitsOf({ 'max-runout': 0.03 })).toEqual({ runout: 'outside' });
    expect(limitsOf({ 'max-runout': 0.03, max: 0.08 })).toEqual({ runout: 'outside' });
    expect(limitsOf({})).toEqual({});
  });

  it('takes in what is said of the gauge', () => {
    const U95 = (more: Partial<MeasureSettings>) => measured(turned, { kind: 'runout', ...more }).U95_mm;
    expect(U95({ gaugeU: 0.005 })).toBeGreaterThan(1.96 * Math.SQRT2 * 0.005);
    expect(U95({ hysteresis: 0.02 })).toBeGreaterThan(U95({ hysteresis: 0 }) + 0.01);
  });

  it('of nothing that turned is no measurement, with its reason, and no verdict', () => {
    const still = turned.map((item) => ({ t: item.t, value: 1 }));
    const { answer, measured: any } = measureItems(still, { ...plain, kind: 'runout', limits: { max: 0.08 } });
    expect(any).toBe(false);
    expect(isNone((answer as { tir_mm: number }).tir_mm)).toBe(true);
    expect(answer).toMatchObject({ limits: { runout: 'not-measured' } });
  });
});

/** At rest, then three turns in six seconds: 3 N·m to break away, 1.2 N·m running. */
const pulled: readonly StreamItem[] = Array.from({ length: 450 }, (_, i) => {
  const t = i / 50;
  const running = t < 1 || t > 7 ? 0 : 1.2 + 1.8 * Math.exp(-(t - 1) / 0.05);
  return {
    t: seconds(t),
    value: Math.round(running * 100) / 100,
    angle: degrees(Math.min(6, Math.max(0, t - 1)) * 180),
  };
});

describe('a recorded torque', () => {
  const torque = (more: Partial<MeasureSettings> = {}) =>
    measured(pulled, { kind: 'torque', resolution: 0.01, ...more });

  it('keeps running and breaking away apart, and judges the one that is asked for', () => {
    const { running_Nm, breakaway_Nm } = torque();
    expect(running_Nm).toBeCloseTo(1.2, 1);
    expect(breakaway_Nm).toBeGreaterThan(2.4);
    const limits = { min: 1, max: 2 };
    expect(torque({ limits })).toMatchObject({ measured: true, limits: { torque: 'within' } });
    expect(torque({ limits, basis: 'starting' })).toMatchObject({ limits: { torque: 'outside' } });
    expect(torque({ limits: { min: 2, max: 4 }, basis: 'starting' }).limits).toEqual({ torque: 'within' });
    expect(torque().limits).toEqual({});
  });

  it('calls close what lies within the doubt of the one that is judged', () => {
    const { running_Nm, U95_Nm, breakaway_Nm, breakawayU95_Nm } = torque({ gaugeU: 0.05 });
    const close = (max: number, basis: 'running' | 'starting') =>
      torque({ gaugeU: 0.05, limits: { max }, basis }).closeCalls.length === 1;
    expect(close(running_Nm + 0.7 * U95_Nm, 'running')).toBe(true);
    expect(close(running_Nm + 1.3 * U95_Nm, 'running')).toBe(false);
    expect(close(breakaway_Nm + 0.7 * breakawayU95_Nm, 'starting')).toBe(true);
    expect(close(breakaway_Nm + 1.3 * breakawayU95_Nm, 'starting')).toBe(false);
  });

  it('takes in what is said of the gauge and of the arm of a pull scale', () => {
    const arm = { length: mm(150), u: mm(6) };
    expect(armShare(arm)).toBeCloseTo(0.04, 3);
    expect(torque({ gaugeU: newtonMetres(0.1) }).U95_Nm).toBeGreaterThan(0.19);
    const armed = torque({ arm }).U95_Nm;
    expect(Math.sqrt(armed ** 2 - torque().U95_Nm ** 2)).toBeCloseTo(1.96 * 0.04 * 1.2, 2);
  });

  it('of a gauge at rest is no measurement', () => {
    const still = pulled.map((item) => ({ t: item.t, value: 0 }));
    expect(measureItems(still, { ...plain, kind: 'torque', limits: { max: 2 } })).toMatchObject({
      measured: false,
      answer: { limits: { torque: 'not-measured' } },
    });
  });
});
