import { describe, expect, it } from 'vitest';
import { degrees, mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { noRunoutSentence } from '../../../../../src/shared/measuring/runout/sentences.ts';
import {
  finishRunout,
  type RunoutMeasured,
  startRunout,
  stepRunout,
} from '../../../../../src/shared/measuring/runout/runout.ts';

interface Face {
  /** What the display makes of the height, mm. */
  readonly shows: (height: number) => number;
  /** Where the turn begins: 0 is the highest place, half a turn on the lowest. */
  readonly from_deg: number;
  readonly withAngle?: boolean;
}

/** A rest, a marked turn and a tenth over a face that runs out by 0.06 mm, a rest. */
function turned({ shows, from_deg, withAngle = false }: Face): RunoutMeasured {
  const random = seeded(3);
  const capture = startRunout({ resolution: mm(0.001), mode: 'continuous' });
  for (let tick = 0; tick < 14 * 30; tick += 1) {
    const t = tick / 30;
    const gone = 396 * Math.min(1, Math.max(0, (t - 1.5) / 11));
    if (tick === 30 || Math.abs(t - 11.5) < 1e-9) stepRunout(capture, { t: seconds(t), pedal: 'next' });
    const height = 0.03 * Math.cos(((from_deg + gone) * Math.PI) / 180) + random.normal(0, 0.0003);
    const value = Math.round(shows(height) * 1000) / 1000;
    stepRunout(capture, { t: seconds(t), value, ...(withAngle ? { angle: degrees(gone % 360) } : {}) });
  }
  return finishRunout(capture);
}

const holding = (farther: (one: number, other: number) => number) => {
  let held: number | undefined;
  return (height: number): number => (held = held === undefined ? height : farther(held, height));
};

describe('an indicator that does not show what it reads now', () => {
  it.each([40, 90, 150, 275])('is believed while it does, begun at %i°', (from_deg) => {
    const live = turned({ shows: (height) => height, from_deg });
    expect(live.tir).toBeCloseTo(0.06, 2);
    expect(live.flags).not.toContain('held');
    expect(live.flags).not.toContain('end-of-travel');
  });

  it.each([false, true])(
    'gives no runout while it holds its highest or its lowest value (angle known: %s)',
    (withAngle) => {
      const found = [25, 60, 90, 140].flatMap((from_deg) => [
        turned({ shows: holding(Math.min), from_deg, withAngle }).tir,
        turned({ shows: holding(Math.max), from_deg: from_deg + 180, withAngle }).tir,
      ]);
      expect(found).not.toContainEqual(expect.any(Number));
      expect(found).toContainEqual({ none: 'held' });
      expect(noRunoutSentence('held')).toContain('live reading');
    },
  );

  it('says so where it hardly moved and never came back, though the angle shows that the gear was turned', () => {
    const held = turned({ shows: holding(Math.max), from_deg: 0, withAngle: true });
    expect(held.flags).toContain('held');
  });

  it.each(['high', 'low'] as const)('says so where the stem stands at one end: the %s places', (end) => {
    const shows = (height: number) => (end === 'high' ? Math.min(height, 0.01) : Math.max(height, -0.01));
    expect(turned({ shows, from_deg: 90 }).flags).toContain('end-of-travel');
  });
});
