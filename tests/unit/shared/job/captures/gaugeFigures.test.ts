import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unitNamed } from '../../../../../src/shared/basics/units.ts';
import { startCapture, streamItem } from '../../../../../src/shared/job/captures/capture.ts';
import { gaugeFigures } from '../../../../../src/shared/job/captures/gaugeFigures.ts';
import { stepOf } from '../../../../../src/shared/job/captures/stepOf.ts';
import {
  armDoubt,
  figureInside,
  isPullScale,
  measuredInside,
} from '../../../../../src/shared/job/captures/torqueScale.ts';
import { type Gauge, gaugeSchema } from '../../../../../src/shared/job/records/gauge.ts';
import type { CaptureSettings } from '../../../../../src/shared/job/records/measurement.ts';

const gaugeOf = (more: object): Gauge => gaugeSchema.parse({ id: 'g', label: 'Gauge', kind: 'indicator', ...more });
const indicator = gaugeOf({ resolution: { value: 0.0005, unit: '[in_i]' } });
const scale = gaugeOf({
  kind: 'torque',
  resolution: { value: 0.2, unit: 'N' },
  arm: { length: { value: 10, unit: '[in_i]' }, within: { value: 0.1, unit: '[in_i]' } },
});

describe('what measuring is told of a gauge', () => {
  it('is in the units used inside', () => {
    expect(gaugeFigures(indicator).length.resolution).toBeCloseTo(0.0127, 12);
    expect(gaugeFigures(scale).torque.resolution).toBeCloseTo(0.2 * 0.254, 12);
  });

  it('takes a stated error for a bound, half its width over √3, and a hysteresis as it is', () => {
    const stated = gaugeOf({
      resolution: { value: 0.001, unit: 'mm' },
      statedError: { value: 0.006, unit: 'mm' },
      hysteresis: { value: 0.003, unit: 'mm' },
    });
    expect(gaugeFigures(stated).length).toEqual({
      resolution: 0.001,
      gaugeU: expect.closeTo(0.006 / Math.sqrt(3), 12) as number,
      hysteresis: 0.003,
    });
    const share = gaugeOf({ kind: 'torque', resolution: { value: 0.01, unit: 'N.m' }, statedError_percent: 3 });
    expect(gaugeFigures(share).torque).toEqual({
      resolution: 0.01,
      gaugeU_share: expect.closeTo(0.03 / Math.sqrt(3), 12) as number,
    });
  });

  it('leaves out what nobody said: not said is not nought', () => {
    expect(Object.keys(gaugeFigures(indicator).length)).toEqual(['resolution']);
    expect(Object.keys(gaugeFigures(indicator).torque)).toEqual(['resolution']);
  });
});

describe('the arm of a pull scale', () => {
  it('makes a torque of a force, and its doubt a share of it', () => {
    const newton = unitNamed('N');
    if (newton === undefined) throw new Error('no newton');
    expect(measuredInside(10, newton, scale)).toBeCloseTo(2.54, 12);
    expect(measuredInside(10, newton, {})).toBeUndefined();
    expect(armDoubt(scale)).toBeCloseTo(0.01 / Math.sqrt(3), 12);
  });

  it('matters to a scale alone, and only where it is known to so and so much', () => {
    const { arm } = scale;
    if (arm === undefined) throw new Error('no arm');
    expect(isPullScale(scale)).toBe(true);
    expect(isPullScale(indicator)).toBe(false);
    expect(armDoubt({ ...indicator, arm })).toBeUndefined();
    expect(armDoubt({ ...scale, arm: { length: arm.length } })).toBeUndefined();
    expect(armDoubt(gaugeOf({ kind: 'torque', resolution: { value: 0.2, unit: 'N' } }))).toBeUndefined();
    expect(figureInside({ value: 1, unit: 'N' }, {})).toBe(0);
    expect(figureInside({ value: 2, unit: 'mm' }, { arm })).toBe(2);
  });
});

describe('a capture refuses what its gauge cannot read', () => {
  const backlash: CaptureSettings = {
    kind: 'backlash',
    basis: { direction: 'along-rotation', at: 'heel' },
    nextBy: 'itself',
  };
  const runout: CaptureSettings = { kind: 'runout', mode: 'continuous' };
  const torque: CaptureSettings = { kind: 'torque', basis: { basis: 'running', seal: 'out', bearings: 'new' } };
  const torqueGauge = gaugeOf({ kind: 'torque', resolution: { value: 0.01, unit: 'N.m' } });

  it.each([
    [backlash, indicator, true],
    [runout, indicator, true],
    [torque, torqueGauge, true],
    [torque, scale, true],
    [torque, indicator, false],
    [backlash, torqueGauge, false],
    [runout, scale, false],
  ] as const)('%o with %o: %s', (settings, gauge, taken) => {
    const begun = startCapture(settings, gauge);
    expect(begun.ok).toBe(taken);
    if (!begun.ok) expect(begun.problem).toMatchObject({ kind: 'wrong-gauge', field: 'gauge' });
  });

  it('makes of a line heard a reading, of a press a press, and of one that could not be read nothing', () => {
    const heard = { seq: 1, gauge: 'g', t: 2.5 } as const;
    expect(streamItem({ ...heard, value: 0.01, unit: '[in_i]' }, 'backlash', indicator)).toEqual({
      ok: true,
      value: { t: 2.5, value: expect.closeTo(0.254, 12) as number },
    });
    expect(streamItem({ ...heard, press: 'next' }, 'backlash', indicator)).toEqual({
      ok: true,
      value: { t: 2.5, pedal: 'next' },
    });
    expect(streamItem({ ...heard, none: 'torn' }, 'backlash', indicator)).toEqual({
      ok: true,
      value: undefined,
    });
  });

  it('stops at a reading in a unit of something else, or of nothing', () => {
    const heard = { seq: 1, gauge: 'g', t: 1, value: 1 } as const;
    for (const [unit, kind] of [
      ['N.m', 'runout'],
      ['mm', 'torque'],
      ['furlong', 'backlash'],
    ] as const) {
      const taken = streamItem({ ...heard, unit }, kind, indicator);
      expect(taken).toMatchObject({ ok: false, problem: { kind: 'wrong-unit', field: 'unit' } });
    }
  });
});

describe('the step of a display, read off its readings', () => {
  it('is the smallest difference between two of them', () => {
    expect(stepOf([1, 1.01, 1.03, 1.03])).toBeCloseTo(0.01, 12);
    expect(stepOf([0.254, 0.2667, 0.2794])).toBeCloseTo(0.0127, 12);
    expect(stepOf([-0.02, 0, 0.04])).toBeCloseTo(0.02, 12);
  });

  it('is no rounding of the same reading', () => {
    expect(stepOf([0.3, 0.1 + 0.2, 0.35])).toBeCloseTo(0.05, 9);
  });

  it('is taken as a thousandth where the display showed one number, or none', () => {
    expect(stepOf([0.5, 0.5])).toBe(0.001);
    expect(stepOf([])).toBe(0.001);
  });

  it('does not depend on the order of readings, and divides every difference', () => {
    const readings = fc.tuple(
      fc.constantFrom(0.001, 0.01, 0.0127, 0.05),
      fc.uniqueArray(fc.integer({ min: -500, max: 500 }), { minLength: 3, maxLength: 40 }),
    );
    fc.assert(
      fc.property(readings, ([step, counts]) => {
        const values = [...counts, (counts[0] ?? 0) + 1].map((count) => count * step);
        expect(stepOf(values)).toBeCloseTo(step, 9);
        expect(stepOf(values.toReversed())).toBe(stepOf(values));
      }),
    );
  });
});
