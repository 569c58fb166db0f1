import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mm, newtonMetres } from '../../../../../src/shared/basics/quantity.ts';
import { calibrateNotch, moveByNotches, notchesFor } from '../../../../../src/shared/axle/arithmetic/adjusters.ts';
import {
  learnShimSlope,
  preloadShim,
  startingSlope,
  totalTorque,
} from '../../../../../src/shared/axle/arithmetic/preload.ts';
import { moveRingGear, packsFromPlay } from '../../../../../src/shared/axle/arithmetic/sideShims.ts';

const wishes = { backlash: mm(0.2), backlashPerAway: 0.8, preload: mm(0.2), split: 'both sides' } as const;
const noPacks = { ringSide: mm(0), otherSide: mm(0) };

describe('side shims from end play and travel to mesh', () => {
  it('take up all play, leave the backlash and add the preload', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 8, noNaN: true }),
        fc.double({ min: 0.2, max: 0.8, noNaN: true }),
        fc.constantFrom('both sides', 'other side'),
        (endPlay, share, split) => {
          const travelToMesh = mm(endPlay * share);
          const readings = { endPlay: mm(endPlay), travelToMesh, inPlace: noPacks };
          const found = packsFromPlay(readings, { ...wishes, split });
          if (!found.ok) throw new Error(found.problem.sentence);
          const { ringSide, otherSide } = found.value;
          expect(ringSide + otherSide).toBeCloseTo(endPlay + wishes.preload, 9);
          const ringPreload = split === 'both sides' ? wishes.preload / 2 : 0;
          expect((travelToMesh - (ringSide - ringPreload)) * wishes.backlashPerAway).toBeCloseTo(wishes.backlash, 9);
        },
      ),
      { seed: 20250531 },
    );
  });

  it('count what was already in place', () => {
    const readings = { endPlay: mm(5), travelToMesh: mm(2), inPlace: noPacks };
    const bare = packsFromPlay(readings, wishes);
    const dummies = packsFromPlay(
      { endPlay: mm(4), travelToMesh: mm(1.5), inPlace: { ringSide: mm(0.5), otherSide: mm(0.5) } },
      wishes,
    );
    expect(bare.ok && dummies.ok && dummies.value.ringSide).toBeCloseTo((bare.ok && bare.value.ringSide) || NaN, 9);
    expect(bare.ok && dummies.ok && dummies.value.otherSide).toBeCloseTo((bare.ok && bare.value.otherSide) || NaN, 9);
  });

  it('get thinner by as much where they lie under flanges, preload and all', () => {
    const inPlace = { ringSide: mm(6), otherSide: mm(6) };
    const readings = { endPlay: mm(1.2), travelToMesh: mm(0.7), inPlace };
    const under = packsFromPlay(readings, { ...wishes, sign: -1 });
    if (!under.ok) throw new Error(under.problem.sentence);
    // In by travel less the allowance of 0.2/0.8, and half the preload: thinner under a flange.
    expect(under.value.ringSide).toBeCloseTo(6 - (0.7 - 0.25) - 0.1, 9);
    expect(under.value.otherSide).toBeCloseTo(6 - (1.2 - 0.7 + 0.25) - 0.1, 9);
    const moved = moveRingGear(inPlace, mm(0.1), -1);
    expect([moved.packs.ringSide, moved.packs.otherSide]).toEqual([6.1, 5.9]);
    expect(moved.words).toMatch(/goes away .*ring-gear side gets 0\.100 mm .* thicker/u);
  });

  it('are refused when the readings cannot be', () => {
    const wrong = { endPlay: mm(2), travelToMesh: mm(3), inPlace: noPacks };
    expect(packsFromPlay(wrong, wishes)).toMatchObject({ problem: { kind: 'no-such-packs' } });
  });

  it('move the ring gear and leave the total, so the preload, alone', () => {
    const packs = { ringSide: mm(6), otherSide: mm(6.4) };
    const found = moveRingGear(packs, mm(-0.1));
    expect(found.packs.ringSide).toBeCloseTo(6.1, 9);
    expect(found.packs.ringSide + found.packs.otherSide).toBeCloseTo(12.4, 9);
    expect(found.words).toContain('closer to the pinion by 0.100 mm (0.0039 in)');
  });
});

describe('threaded adjusters', () => {
  it('keep the preload: one side gives as many notches as the other takes, and each ends tightening', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -12, max: 12 }).filter((notches) => notches !== 0),
        (notches) => {
          const turns = moveByNotches(notches);
          const net = (side: string): number =>
            turns
              .filter((turn) => turn.side === side)
              .reduce((sum, turn) => sum + (turn.turn === 'tighten' ? turn.notches : -turn.notches), 0);
          expect(net('other side')).toBe(notches);
          expect(net('ring-gear side')).toBe(-notches);
          expect(turns[0]?.turn).toBe('loosen');
          for (const side of ['ring-gear side', 'other side']) {
            expect(turns.findLast((turn) => turn.side === side)?.turn).toBe('tighten');
          }
        },
      ),
      { seed: 20250531 },
    );
    expect(moveByNotches(0)).toEqual([]);
  });

  it('learn a notch from two readings and then count notches', () => {
    const rate = calibrateNotch(2, mm(0.1), mm(0.25));
    if (!rate.ok) throw new Error(rate.problem.sentence);
    expect(rate.value.backlashPerNotch).toBeCloseTo(0.075, 9);
    expect(notchesFor(mm(0.32), mm(0.2), rate.value)).toBe(-2);
    expect(calibrateNotch(2, mm(0.25), mm(0.1))).toMatchObject({ problem: { kind: 'notch-not-calibrated' } });
    expect(calibrateNotch(0, mm(0.25), mm(0.3))).toMatchObject({ problem: { kind: 'notch-not-calibrated' } });
  });
});

describe('pinion preload', () => {
  const inLb = (value: number) => newtonMetres(value * 4.4482216152605 * 0.0254);

  // Common practice: 0.001 in of shim moved one axle from about 20 to 13 in-lb.
  it('starts from the slope of the trade and says so', () => {
    const found = preloadShim({ shim: mm(1), running: inLb(13) }, inLb(20), startingSlope);
    if (!found.ok) throw new Error(found.problem.sentence);
    expect(found.value.change).toBeCloseTo(-0.0254, 9);
    expect(found.value.words).toContain('common practice');
  });

  it('learns the slope of this axle from two readings and then meets the wanted torque', () => {
    const [thick, thin] = [
      { shim: mm(1.05), running: inLb(10) },
      { shim: mm(1), running: inLb(25) },
    ];
    const slope = learnShimSlope(thick, thin);
    if (!slope.ok) throw new Error(slope.problem.sentence);
    expect(preloadShim(thick, inLb(25), slope.value)).toMatchObject({
      ok: true,
      value: { shim: expect.closeTo(1, 9) },
    });
    expect(learnShimSlope(thin, { ...thick, running: inLb(30) })).toMatchObject({
      problem: { kind: 'slope-not-learnt' },
    });
  });

  // Common practice: total = pinion + case drag / ratio + mesh. 10 in-lb at 4:1 is 2.5 at the pinion.
  it('adds the case bearings by the ratio', () => {
    const parts = { pinion: newtonMetres(2), caseBearings: newtonMetres(1.2), mesh: newtonMetres(0.1) };
    expect(totalTorque(parts, 4)).toBeCloseTo(2.4, 12);
  });
});
