import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringGearMove } from '../../../../../src/shared/job/planning/ringGearMove.ts';
import { isDescribed } from '../../../../../src/shared/job/checks/readiness.ts';
import { makeSwap } from '../../../../../src/shared/job/swap/makeSwap.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { backlash, buildOf, limitsSet, measured, notebook, trial } from '../../../../support/records/scenario.ts';
import { packs, shimsOf, withMakeUp } from '../../../../support/records/trials.ts';

/** The window of the invented axle is 0.15 to 0.25 mm, along the turn at the heel. */
const [low, high] = [0.15, 0.25];

function moveFor(stations: readonly number[], ...more: readonly Deed[]) {
  const deeds = [withMakeUp({}), limitsSet, trial, measured('e3', 'backlash', backlash(stations)), ...more];
  const build = buildOf(notebook(...deeds));
  const assembly = build.assemblies.at(-1);
  if (!isDescribed(build) || assembly === undefined) throw new Error('no trial');
  return { build, assembly, move: ringGearMove(build, assembly) };
}

describe('a backlash that is out before any paint', () => {
  it('sends the ring gear away where it is too small, closer where it is too large, without a mark', () => {
    const small = moveFor([0.09, 0.1, 0.11, 0.1]).move;
    const large = moveFor([0.29, 0.3, 0.31, 0.3]).move;
    expect(small).toMatchObject({ ok: true, value: { brings: true, binds: false } });
    expect(small.ok && small.value.ringAway_mm).toBeCloseTo(0.1, 1);
    expect(large.ok && large.value.ringAway_mm).toBeCloseTo(-0.1, 1);
  });

  // Published and shop figures lie at 0.5 to 0.8 mm a millimetre, the mesh of this axle says about 0.9.
  it('ends inside the window on an axle that answers otherwise than the mesh says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.08, max: 0.32, noNaN: true }),
        fc.double({ min: 0.7, max: 1, noNaN: true }),
        (mean, answer) => {
          const { move } = moveFor([mean - 0.01, mean, mean + 0.01, mean]);
          if (!move.ok) throw new Error(move.problem.sentence);
          const after = mean + answer * move.value.ringAway_mm;
          expect(after).toBeGreaterThan(low);
          expect(after).toBeLessThan(high);
        },
      ),
    );
  });

  it('says that gears which bind tell nothing of how far they overlap', () => {
    expect(moveFor([0, 0, 0.01, 0]).move).toMatchObject({ ok: true, value: { binds: true } });
  });

  it('promises nothing where the backlash varies by more than its window is wide', () => {
    const { move } = moveFor([0.08, 0.1, 0.2, 0.14]);
    expect(move).toMatchObject({ ok: false, problem: { kind: 'varies-too-much' } });
    expect(!move.ok && move.problem.sentence).toContain('0.120 mm');
  });

  it('makes a card that changes both sides and leaves the pinion alone', () => {
    const { build, assembly, move } = moveFor([0.09, 0.1, 0.11, 0.1], shimsOf('e3', packs(1.5, 3, 3.2)));
    if (!isDescribed(build) || !move.ok) throw new Error('no move');
    const { ringAway_mm, expected } = move.value;
    const card = makeSwap(build.makeUp, assembly, {
      by: 'own',
      move: { pinionOut: 0, ringAway: ringAway_mm },
      expected,
    });
    if (!card.ok) throw new Error(card.problem.sentence);
    const wanted = Object.fromEntries(card.value.lines.map(({ place, wanted_mm }) => [place, wanted_mm]));
    expect(Object.keys(wanted)).toEqual(['ring-side', 'opposite-side']);
    // Away from the pinion: what the ring-gear side loses the other side gains.
    expect(wanted['ring-side']).toBeCloseTo(3 - ringAway_mm, 6);
    expect(wanted['opposite-side']).toBeCloseTo(3.2 + ringAway_mm, 6);
  });
});
