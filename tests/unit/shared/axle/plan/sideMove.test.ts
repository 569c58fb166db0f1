import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeSet } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import { backlashPerAway, binds, type SideAsked, sideMoveFor } from '../../../../../src/shared/axle/plan/sideMove.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { setWith } from './scenes.ts';

function modelOf() {
  const { driveFlank: _driveFlank, ...set } = setWith('face-milled');
  const described = describeSet(set);
  if (!described.ok) throw new Error(described.problem.sentence);
  return described.value;
}

const model = modelOf();
const asked = (backlash: SideAsked['backlash']): SideAsked => ({
  driveFlank: 'convex',
  backlashBasis: { direction: 'along-rotation', at: 'heel' },
  limits: { backlash_mm: [0.2, 0.3] },
  step_mm: 0.02,
  backlash,
});
const about = (mean_mm: number, above = 0.01, below = 0.01): SideAsked['backlash'] => ({
  mean_mm,
  min_mm: mean_mm - below,
  max_mm: mean_mm + above,
  U95_mm: 0.006,
});

describe('the ring gear alone', () => {
  test('stays where the backlash is inside its window all round', () => {
    expect(sideMoveFor(model, asked(about(0.285)))).toMatchObject({ ringAway_mm: 0, expected: { mean_mm: 0.285 } });
  });

  test('goes to the middle of the window in whole steps, closer for more and away for less', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.6, noNaN: true }), (mean) => {
        const { ringAway_mm, expected } = sideMoveFor(model, asked(about(mean)));
        if (ringAway_mm === 0 || isNone(expected)) return;
        expect(Math.sign(ringAway_mm)).toBe(Math.sign(0.25 - mean));
        expect(Math.abs(ringAway_mm / 0.02 - Math.round(ringAway_mm / 0.02))).toBeLessThan(1e-6);
        // Half a step, and what rounding to a micron leaves.
        expect(Math.abs(expected.mean_mm - 0.25)).toBeLessThan(0.0101);
      }),
    );
  });

  test('gives smallest and largest station equal room', () => {
    const { expected } = sideMoveFor(model, asked(about(0.4, 0.03, 0.01)));
    if (isNone(expected)) throw new Error('a number was to come');
    expect(Math.abs(expected.mean_mm - 0.24)).toBeLessThan(0.011);
  });

  test('is surer of a short move than of a long one', () => {
    const [short, long] = [about(0.32), about(0.55)].map((read) => sideMoveFor(model, asked(read)).expected);
    if (short === undefined || long === undefined || isNone(short) || isNone(long))
      throw new Error('numbers were to come');
    expect(long.U95_mm).toBeGreaterThan(2 * short.U95_mm);
  });

  test('answers a little below the formula, where published answers lie', () => {
    const perAway = backlashPerAway(model, { direction: 'along-rotation', at: 'heel' }, 'convex');
    expect(perAway).toBeGreaterThan(0.7);
    expect(perAway).toBeLessThan(1);
  });

  test('gears that bind get room, and nobody says what the backlash will be', () => {
    const bound = { mean_mm: 0, min_mm: 0, max_mm: 0 };
    expect(binds(bound)).toBe(true);
    const { ringAway_mm, expected } = sideMoveFor(model, asked(bound));
    expect(ringAway_mm).toBeGreaterThanOrEqual(0.3);
    expect(expected).toEqual({ none: 'gears that bind do not say how far they are pressed together' });
  });
});
