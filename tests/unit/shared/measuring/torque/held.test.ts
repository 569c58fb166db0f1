import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { newtonMetres, seconds } from '../../../../../src/shared/basics/quantity.ts';
import {
  finishTorque,
  startTorque,
  stepTorque,
  type TorqueMeasured,
} from '../../../../../src/shared/measuring/torque/torque.ts';

/** A rest, a start of 2.6 N·m, five turns at 1.8 N·m ± 5 % and a rest again, shown as `display` shows it. */
function shown(display: (torque: number, t: number) => number, step = 0.01): TorqueMeasured {
  const random = seeded(7);
  const capture = startTorque({ resolution: newtonMetres(step) });
  for (let tick = 0; tick < 12 * 40; tick += 1) {
    const t = tick / 40;
    const turning = 1.8 * (1 + 0.05 * Math.sin(Math.PI * t)) + 0.8 * Math.exp(-20 * (t - 1.3));
    const torque = t < 1 || t > 11 ? 0 : t < 1.3 ? (2.6 * (t - 1)) / 0.3 : turning;
    const value = Math.round(display(torque + random.normal(0, step / 2), t) / step) * step;
    stepTorque(capture, { t: seconds(t), value });
  }
  return finishTorque(capture);
}

const highestOf = () => {
  let highest = Number.NEGATIVE_INFINITY;
  return (torque: number): number => (highest = Math.max(highest, torque));
};

describe('a torque gauge that does not show what it reads now', () => {
  it('is believed while it shows what it reads', () => {
    const live = shown((torque) => torque);
    expect(live.running).toBeCloseTo(1.8, 1);
    expect(live.flags).not.toContain('held');
  });

  it('gives no torque while it holds its highest value, let go of or not', () => {
    expect(shown(highestOf()).running).toEqual({ none: 'held' });
    const hold = highestOf();
    const cleared = shown((torque, t) => (t > 11.5 ? 0 : hold(torque)));
    expect(cleared.running).toEqual({ none: 'held' });
    expect(cleared.breakaway).toEqual({ none: 'held' });
    expect(cleared.flags).toEqual(['held']);
  });

  it('gives no torque where its range ends below what turns the shaft', () => {
    expect(shown((torque) => Math.min(torque, 1.5)).running).toEqual({ none: 'held' });
  });

  it('says so where its range ends amid the swing of the turn', () => {
    expect(shown((torque) => Math.min(torque, 1.82)).flags).toContain('held');
  });

  it('keeps its number, with a word, where its steps are too coarse to show that a shaft turns', () => {
    const coarse = shown(highestOf(), 0.2);
    expect(coarse.running).toEqual(expect.any(Number));
    expect(coarse.flags).toContain('held');
  });
});
