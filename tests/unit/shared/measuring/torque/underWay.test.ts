import fc from 'fast-check';
import { expect, it } from 'vitest';
import { seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { type Capture, startCapture } from '../../../../../src/shared/job/captures/capture.ts';
import type { GaugeSeen } from '../../../../../src/shared/job/records/gauge.ts';

const gauge: GaugeSeen = {
  id: 'g',
  label: 'Torque gauge',
  kind: 'torque',
  resolution: { value: 0.01, unit: 'N.m' },
};
const settings = { kind: 'torque', basis: { basis: 'running', seal: 'in', bearings: 'new' } } as const;
const pace_s = 0.01;

/** A shaft at rest, pulled up in 0.3 s, turned for 2 s with a ripple, let go, at rest again; one value each 10 ms. */
const pullOf = (running: number): readonly number[] => {
  const at = (t: number): number => {
    if (t < 0.4 || t > 3) return 0;
    if (t < 0.7) return (1.25 * running * (t - 0.4)) / 0.3;
    if (t > 2.9) return (running * (3 - t)) / 0.1;
    return running * (1 + 0.02 * Math.sin(4 * Math.PI * t) + 0.25 * Math.exp(-(t - 0.7) / 0.05));
  };
  return Array.from({ length: 500 }, (_, n) => Math.round(at(n * pace_s) * 100) / 100);
};

interface Silence {
  readonly from: number;
  readonly lasts: number;
}

/** The readings as they arrive: those that fall into a silence come in one heap at its end. */
function arriving(values: readonly number[], { from, lasts }: Silence) {
  let last = 0;
  return values.map((value, n) => {
    const t = n * pace_s;
    last = Math.max(last + 1e-5, t >= from && t < from + lasts ? from + lasts : t);
    return { t: last, value };
  });
}

function heardFrom(capture: Capture, readings: ReturnType<typeof arriving>): readonly string[] {
  return readings.flatMap(({ t, value }) => capture.step({ t: seconds(t), value }).map(({ kind }) => kind));
}

it('knows that the hand has let go, and what the shaft ran at, whenever in the pull listening began', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.4, max: 2.5, noNaN: true }),
      fc.integer({ min: 0, max: 75 }),
      fc.double({ min: 0.2, max: 2.2, noNaN: true }),
      fc.double({ min: 0, max: 0.35, noNaN: true }),
      (running, missed, from, lasts) => {
        const started = startCapture(settings, gauge);
        if (!started.ok) throw new Error(started.problem.sentence);
        const kinds = heardFrom(started.value, arriving(pullOf(running), { from, lasts }).slice(missed));
        const result = started.value.soFar();
        expect(kinds.findLast((kind) => kind === 'pulling' || kind === 'let-go')).toBe('let-go');
        if (result?.kind !== 'torque' || isNone(result.running_Nm)) throw new Error('no torque');
        expect(Math.abs(result.running_Nm - running)).toBeLessThan(0.02 + 0.05 * running);
      },
    ),
  );
});
