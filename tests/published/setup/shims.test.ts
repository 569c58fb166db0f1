import { describe, expect, it } from 'vitest';
import { type Length, mm } from '../../../src/shared/basics/quantity.ts';
import {
  byPrintedRule,
  carryShimOver,
  contradictionIn,
  type EtchedMark,
  wantedOut,
} from '../../../src/shared/axle/arithmetic/etchedMark.ts';
import type { DepthPlace } from '../../../src/shared/axle/arithmetic/depthShim.ts';
import { dialTravel } from '../../../src/shared/axle/arithmetic/depthTool.ts';
import { addPreload, moveRingGear } from '../../../src/shared/axle/arithmetic/sideShims.ts';

/**
 * Worked examples of public manuals (US Army technical manuals, texts read earlier as stored excerpts). Each holds for its
 * own axle; sources that contradict each other are shown in docs, not tested.
 */
const inches = (value: number): Length => mm(value * 25.4);
const thousandths = (value: number): EtchedMark => ({ value, unit: '0.001 in', plusMeans: 'further out' });

function changeInInches(oldMark: number, newMark: number, place: DepthPlace): number {
  const found = carryShimOver(inches(0.03), thousandths(oldMark), thousandths(newMark), place);
  if (!found.ok) throw new Error(found.problem.sentence);
  return found.value.change / 25.4;
}

describe('carrying a depth shim over by the etched marks', () => {
  it('head-side shim, old −3, new +2: 0.005 in thinner (TM 9-2320-280-34 s. 19-3)', () => {
    expect(changeInInches(-3, 2, 'under-head')).toBeCloseTo(-0.005, 9);
  });

  it('shim behind the head cup, old +4, new −4: 0.008 in thicker (TM 9-2320-266-34 p. 19-7)', () => {
    expect(changeInInches(4, -4, 'behind-head-cup')).toBeCloseTo(0.008, 9);
  });

  // TM 10-3930-660-34 and TM 5-3805-262-34 p. 4-230 give the rule for the cage: subtract the old mark, add the new one.
  // TM 5-3895-369-14 pp. 5-409, 5-412 has the numbers; that its shim sits under the cage is inferred.
  it('cage shim, old +2, new −1: 0.003 in thinner (TM 5-3895-369-14; rule TM 5-3805-262-34 p. 4-230)', () => {
    expect(changeInInches(2, -1, 'under-cage')).toBeCloseTo(-0.003, 9);
  });

  it('+3 is 0.003 in, but +0.03 is 0.03 mm (TM 10-3930-660-34)', () => {
    expect(wantedOut(thousandths(3))).toBeCloseTo(0.0762, 9);
    expect(wantedOut({ value: 0.03, unit: 'mm', plusMeans: 'further out' })).toBeCloseTo(0.03, 9);
  });

  // TM 9-2320-365-34-2 pp. 23-16, 24-16 add + for the old pinion and + for the new (own reading). Shown, not followed.
  it('shows a printed rule that adds both marks as contradictory', () => {
    expect(contradictionIn({ old: 1, new: 1 })).toContain('contradicts itself');
  });

  // Common practice: one rule serves one place of the shim, and is the wrong way round at the other.
  it('common practice: old added, new taken off is right under the head, and wrong under a cage', () => {
    const rule = { old: 1, new: -1 } as const;
    const byRule = byPrintedRule(rule, inches(0.03), thousandths(-3), thousandths(2));
    expect(((byRule ?? 0) - inches(0.03)) / 25.4).toBeCloseTo(changeInInches(-3, 2, 'under-head'), 9);
    expect(((byRule ?? 0) - inches(0.03)) / 25.4).toBeCloseTo(-changeInInches(-3, 2, 'under-cage'), 9);
    const distance: EtchedMark = { value: 2.5, unit: 'distance in inches', plusMeans: 'further out' };
    expect(byPrintedRule(rule, inches(0.03), distance, distance)).toBeUndefined();
  });

  // Common practice (no source to name): worked checks of the trade.
  it('common practice: +2 to −2 at the head is 0.004 in thicker; a 0.030 in cage pack, +2 to +5, becomes 0.033', () => {
    expect(changeInInches(2, -2, 'under-head')).toBeCloseTo(0.004, 9);
    expect(0.03 + changeInInches(2, 5, 'under-cage')).toBeCloseTo(0.033, 9);
  });
});

describe('dial of a depth tool', () => {
  it('pointer at 84 is 0.084 in, at 5 it has made a turn and is 0.105 in (TM 9-2320-280-34 s. 19-3)', () => {
    expect(dialTravel(84)).toMatchObject({ ok: true, value: 84 * 0.0254 });
    const turned = dialTravel(5);
    expect(turned.ok && turned.value / 25.4).toBeCloseTo(0.105, 9);
  });
});

describe('side shims', () => {
  it('from zero lash: ring side 0.010 in thinner, other side 0.010 thicker, then 0.004 on each (TM 9-2320-289-34)', () => {
    const zeroLash = { ringSide: inches(0.25), otherSide: inches(0.27) };
    const moved = moveRingGear(zeroLash, inches(0.01));
    expect(moved.packs.ringSide / 25.4).toBeCloseTo(0.24, 9);
    expect(moved.packs.otherSide / 25.4).toBeCloseTo(0.28, 9);
    const preloaded = addPreload(moved.packs, inches(0.008));
    expect(preloaded.ringSide / 25.4).toBeCloseTo(0.244, 9);
    expect(preloaded.otherSide / 25.4).toBeCloseTo(0.284, 9);
  });
});
