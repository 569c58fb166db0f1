import { describe, expect, it } from 'vitest';
import { startCapture, streamItem } from '../../../../../src/shared/job/captures/capture.ts';
import { armDoubt, figureInside } from '../../../../../src/shared/job/captures/torqueScale.ts';
import { type Gauge, gaugeSchema } from '../../../../../src/shared/job/records/gauge.ts';
import type { CaptureSettings, TorqueResult } from '../../../../../src/shared/job/records/measurement.ts';

const pull: Gauge = gaugeSchema.parse({
  id: 'g4',
  label: 'Pull scale',
  kind: 'torque',
  resolution: { value: 0.1, unit: 'N' },
  statedError: { value: 0.3, unit: 'N' },
  arm: { length: { value: 150, unit: 'mm' }, within: { value: 3, unit: 'mm' } },
});
const { arm: _, ...rest } = pull;
const armless: Gauge = rest;
const settings: CaptureSettings = { kind: 'torque', basis: { basis: 'running', seal: 'out', bearings: 'new' } };

/** Three turns in six seconds: from rest a breakaway of 20 N, then 12 N. */
function measured(gauge: Gauge, force: (t: number) => number, unit = 'N'): TorqueResult {
  const capture = startCapture(settings, gauge);
  if (!capture.ok) throw new Error(capture.problem.sentence);
  for (let i = 0; i < 400; i += 1) {
    const t = i / 50;
    const item = streamItem({ seq: i, gauge: gauge.id, t, value: force(t), unit }, 'torque', gauge);
    if (!item.ok || item.value === undefined) throw new Error('not taken');
    capture.value.step(item.value);
  }
  const result = capture.value.finish();
  if (result.kind !== 'torque') throw new Error('not a torque');
  return result;
}

const byHand = (t: number): number => {
  if (t < 1 || t > 7) return 0;
  return t < 1.2 ? 100 * (t - 1) : 12 + 8 * Math.exp(-(t - 1.2) / 0.05);
};

describe('a pull scale', () => {
  it('makes a torque of its force at the arm, with the arm in its doubt', () => {
    const { running_Nm, breakaway_Nm, parts } = measured(pull, byHand);
    expect(running_Nm).toBeCloseTo(12 * 0.15, 2);
    expect(breakaway_Nm).toBeGreaterThan(17 * 0.15);
    // ± 3 mm of 150 mm is 2 %, over √3.
    expect(armDoubt(pull)).toBeCloseTo(0.02 / Math.sqrt(3), 12);
    expect(parts.find(({ name }) => name === 'arm')?.u).toBeCloseTo((12 * 0.15 * 0.02) / Math.sqrt(3), 3);
    expect(parts.find(({ name }) => name === 'resolution')?.u).toBeCloseTo(0.015 / Math.sqrt(6), 9);
    expect(parts.find(({ name }) => name === 'gauge')?.u).toBeCloseTo((0.3 * 0.15) / Math.sqrt(3), 9);
  });

  it('reads the same torque in pounds', () => {
    const inPounds = measured(pull, (t) => byHand(t) / 4.4482216152605, '[lbf_av]');
    expect(inPounds.running_Nm).toBeCloseTo(12 * 0.15, 2);
    expect(figureInside({ value: 1, unit: '[lbf_av]' }, pull)).toBeCloseTo(4.4482216152605 * 0.15, 12);
  });

  it('is refused without an arm, and for a length with one', () => {
    expect(startCapture(settings, armless)).toMatchObject({ ok: false, problem: { kind: 'no-arm' } });
    const runout: CaptureSettings = { kind: 'runout', mode: 'continuous' };
    expect(startCapture(runout, pull)).toMatchObject({ ok: false, problem: { kind: 'wrong-gauge' } });
  });

  it('lets no force pass as a torque where no arm is known', () => {
    const heard = { seq: 1, gauge: 'g4', t: 1, value: 12, unit: 'N' };
    expect(streamItem(heard, 'torque', armless)).toMatchObject({ ok: false, problem: { kind: 'wrong-unit' } });
    expect(streamItem(heard, 'backlash', pull)).toMatchObject({ ok: false, problem: { kind: 'wrong-unit' } });
  });
});
