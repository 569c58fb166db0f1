import { describe, expect, it } from 'vitest';
import { preloadShimFrom, totalFrom } from '../../../../../../src/renderer/screens/shims/sums/preload.ts';
import {
  backlashPerAway,
  backlashThen,
  notchesNow,
  packsFor,
} from '../../../../../../src/renderer/screens/shims/sums/sides.ts';
import { mm, newtonMetres } from '../../../../../../src/shared/basics/quantity.ts';
import { makeUp } from '../../../../../support/records/scenario.ts';

describe('side packs as the screen asks for them', () => {
  const read = {
    endPlay: mm(1.2),
    travelToMesh: mm(0.7),
    ringSide: mm(3),
    otherSide: undefined,
    backlash: mm(0.15),
    preload: mm(0.2),
    split: 'both sides',
    sign: 1,
    perAway: 0.75,
  } as const;

  it('take end play and travel to mesh, and leave out what was not in', () => {
    const packs = packsFor(read);
    // Ring side 3 + 0.7 − 0.15/0.75 + 0.1; other side 0 + 1.2 − 0.7 + 0.2 + 0.1.
    expect(packs).toMatchObject({ ok: true });
    if (packs?.ok !== true) throw new Error('no packs');
    expect(packs.value.ringSide).toBeCloseTo(3.6, 9);
    expect(packs.value.otherSide).toBeCloseTo(0.8, 9);
  });

  it('wait for both travels, for the backlash and for the gears', () => {
    for (const missing of ['endPlay', 'travelToMesh', 'backlash', 'perAway'] as const) {
      expect(packsFor({ ...read, [missing]: undefined })).toBeUndefined();
    }
  });

  it('take how much backlash a movement opens from the mesh, inside what gears do', () => {
    const rate = backlashPerAway(makeUp);
    expect(rate).toBeGreaterThan(0.5);
    expect(rate).toBeLessThan(1.1);
  });
});

describe('notches as the screen asks for them', () => {
  it('come from two readings with known notches between them', () => {
    const read = { moved: 4, before: mm(0.1), after: mm(0.18), wanted: mm(0.24) };
    expect(notchesNow(read)).toEqual({ ok: true, value: 3 });
    expect(notchesNow({ ...read, after: mm(0.05) })).toMatchObject({ problem: { kind: 'notch-not-calibrated' } });
    expect(notchesNow({ ...read, moved: undefined })).toBeUndefined();
    const perNotch = (read.after - read.before) / read.moved;
    expect(backlashThen(read)).toBeCloseTo(read.after + 3 * perNotch, 9);
    expect(backlashThen({ ...read, after: mm(0.05) })).toBeUndefined();
  });
});

describe('preload as the screen asks for it', () => {
  const now = { shim: mm(1), running: newtonMetres(1.5), wanted: newtonMetres(2.5) };
  const nothing = { earlierShim: undefined, earlierRunning: undefined };

  it('learns the slope from a second reading, and says when it goes by common practice', () => {
    const learnt = preloadShimFrom({ ...now, earlierShim: mm(1.02), earlierRunning: newtonMetres(1) });
    // 0.5 N·m for 0.02 mm, so 1 N·m more takes 0.04 mm out.
    expect(learnt?.ok === true && learnt.value.shim).toBeCloseTo(0.96, 9);
    const assumed = preloadShimFrom({ ...now, ...nothing });
    expect(assumed?.ok === true && assumed.value.words).toContain('common practice');
    expect(preloadShimFrom({ ...now, ...nothing, wanted: undefined })).toBeUndefined();
  });

  it('adds the case bearings by the ratio', () => {
    const parts = { pinion: newtonMetres(2), caseBearings: newtonMetres(4), mesh: undefined };
    const total = totalFrom({ ...parts, ratio: 4 });
    expect(total).toBeCloseTo(3, 9);
    expect(totalFrom({ ...parts, ratio: undefined })).toBeUndefined();
  });
});
