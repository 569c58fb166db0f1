import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { swapOf, waitingSwap } from '../../../../../src/shared/job/records/build.ts';
import { counted, sizesFor, type ShimDrawer } from '../../../../../src/shared/job/records/drawer.ts';
import { insideOf } from '../../../../../src/shared/basics/recorded.ts';
import type { SwapPlanned } from '../../../../../src/shared/job/records/swap.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { comparisonOf } from '../../../../../src/shared/job/swap/comparison.ts';
import { makeSwap } from '../../../../../src/shared/job/swap/makeSwap.ts';
import { packFault } from '../../../../../src/shared/job/swap/packFault.ts';
import {
  byBacklashWords,
  changeWords,
  moveWords,
  notchWords,
  swapNotes,
} from '../../../../../src/shared/job/swap/swapWords.ts';
import { plannableOf } from '../../../../../src/shared/job/planning/plannable.ts';
import '../../../../support/propertySeed.ts';
import { buildOf, byHand, limitsSet, makeUp, notebook, trial } from '../../../../support/records/scenario.ts';
import {
  backlashOf,
  expectedAt,
  lowAndToe,
  markOf,
  packs,
  right,
  shimsOf,
  withMakeUp,
} from '../../../../support/records/trials.ts';

const stood = buildOf(
  notebook(
    withMakeUp({}),
    limitsSet,
    trial,
    shimsOf('e3', packs(1.1, 3, 3)),
    backlashOf('e3', 0.2),
    markOf('e3', lowAndToe),
  ),
);
const [first] = stood.assemblies;
if (first === undefined) throw new Error('no trial');

const swapped = (pinionOut: number, ringAway: number, of = makeUp): SwapPlanned => {
  const swap = makeSwap(of, first, { by: 'plan', move: { pinionOut, ringAway }, expected: expectedAt(0.2) });
  if (!swap.ok) throw new Error(swap.problem.sentence);
  return swap.value;
};

describe('the swap card', () => {
  it('says what comes out and what goes in, the sides against each other', () => {
    const { lines } = swapped(0.1, 0.05);
    expect(lines.map(({ place, wanted_mm }) => [place, wanted_mm])).toEqual([
      ['pinion-depth', 1],
      ['ring-side', 2.95],
      ['opposite-side', 3.05],
    ]);
    expect(lines.map((line) => changeWords(line, 'metric'))).toEqual([
      '0.100 mm thinner',
      '0.050 mm thinner',
      '0.050 mm thicker',
    ]);
  });

  it('gives back the movement it was made for, wherever the depth shim sits and whatever moves', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('under-head-bearing', 'behind-head-cup', 'under-cage'),
        fc.integer({ min: -40, max: 40 }),
        fc.integer({ min: -40, max: 40 }),
        (depthShimPlace, out, away) => {
          const move = { pinionOut: out / 100, ringAway: away / 100 };
          // Only a caged pinion has a cage to put shims under.
          const pinionMount = depthShimPlace === 'under-cage' ? 'caged' : makeUp.pinionMount;
          const swap = swapped(move.pinionOut, move.ringAway, { ...makeUp, depthShimPlace, pinionMount });
          const wanted = (place: string, was: number) =>
            swap.lines.find((line) => line.place === place)?.wanted_mm ?? was;
          const next = packs(wanted('pinion-depth', 1.1), wanted('ring-side', 3), wanted('opposite-side', 3));
          const deeds = [trial, shimsOf('e7', next), backlashOf('e7', 0.2), markOf('e7', right)];
          const asked = plannableOf(
            buildOf(
              notebook(
                withMakeUp({ depthShimPlace, pinionMount }),
                limitsSet,
                trial,
                shimsOf('e3', packs(1.1, 3, 3)),
                backlashOf('e3', 0.2),
                markOf('e3', lowAndToe),
                ...deeds,
              ),
            ),
          );
          if (!asked.ok) throw new Error(asked.problem.sentence);
          expect(asked.value.input.trials[1]?.pinionOut_mm).toBeCloseTo(move.pinionOut, 4);
          expect(asked.value.input.trials[1]?.ringAway_mm).toBeCloseTo(move.ringAway, 4);
        },
      ),
      { numRuns: 12 },
    );
  });

  it('leaves out what does not change, and turns adjusters by whole notches', () => {
    expect(swapped(0.1, 0).lines.map(({ place }) => place)).toEqual(['pinion-depth']);
    const adjusters = swapped(0, -0.11, { ...makeUp, caseAdjustment: 'threaded-adjusters', ringStep_mm: 0.05 });
    expect(adjusters).toMatchObject({ lines: [], notches: -2, ringAway_mm: -0.1 });
    expect(notchWords(-2)).toHaveLength(3);
  });

  it('counts no notch while nobody knows what one does, and then by thread or as calibrated', () => {
    const adjusters = { ...makeUp, caseAdjustment: 'threaded-adjusters', ringStep_mm: undefined } as const;
    const { ringStep_mm: _, ...unknown } = adjusters;
    const card = swapped(0, -0.11, unknown);
    expect(card).toMatchObject({ lines: [], ringAway_mm: -0.11 });
    expect(card.notches).toBeUndefined();
    expect(byBacklashWords(-0.11, 'metric')).toMatch(
      /^About 0\.110 mm closer: loosen the other side by one notch, .*read the backlash/u,
    );
    const byThread = swapped(0, -0.11, { ...unknown, threadPitch_mm: 1.5, notchesPerTurn: 15 });
    expect(byThread).toMatchObject({ notches: -1, ringAway_mm: -0.1 });
  });

  it('turns both side packs round where they lie under the flange of a retainer', () => {
    const change = (place: string, card: ReturnType<typeof swapped>): number => {
      const line = card.lines.find((one) => one.place === place);
      return line === undefined ? 0 : line.wanted_mm - insideOf(line.out);
    };
    const [behindCup, underFlange] = [swapped(0, 0.1), swapped(0, 0.1, { ...makeUp, caseAdjustment: 'flange-shims' })];
    expect(change('ring-side', behindCup)).toBeCloseTo(-0.1, 6);
    expect(change('ring-side', underFlange)).toBeCloseTo(0.1, 6);
    expect(change('opposite-side', underFlange)).toBeCloseTo(-0.1, 6);
  });

  it('refuses a pack that was not measured or would be thinner than nothing', () => {
    expect(
      makeSwap(makeUp, first, { by: 'own', move: { pinionOut: 1.2, ringAway: 0 }, expected: expectedAt(0.2) }),
    ).toMatchObject({
      ok: false,
      problem: { kind: 'no-such-shim' },
    });
    const bare = buildOf(notebook(withMakeUp({}), limitsSet, trial)).assemblies[0] ?? first;
    expect(
      makeSwap(makeUp, bare, { by: 'own', move: { pinionOut: 0.1, ringAway: 0 }, expected: expectedAt(0.2) }),
    ).toMatchObject({
      ok: false,
      problem: { kind: 'pack-not-measured', field: 'pinion-depth' },
    });
  });

  it('says in words which way things go, and what the depth shim does to a solid spacer', () => {
    expect(moveWords({ pinionOut: -0.1, ringAway: 0.05 }, 'metric')).toBe(
      'The pinion goes deeper 0.100 mm; the ring gear goes 0.050 mm away.',
    );
    expect(moveWords({ pinionOut: 0.0254, ringAway: 0 }, 'inch')).toBe(
      'The pinion comes out 0.0010 in; the ring gear stays.',
    );
    expect(swapNotes(makeUp, swapped(0.1, 0), 'metric')).toEqual([]);
    const spacer = { ...makeUp, pinionPreload: 'solid-spacer', depthShimPlace: 'behind-head-cup' } as const;
    expect(swapNotes(spacer, swapped(0.1, 0, spacer), 'metric')[0]).toContain(
      'take from the preload stack the same 0.100 mm',
    );
  });
});

describe('the pack measured before anything is put together', () => {
  const { lines } = swapped(0.1, 0.05);
  const fault = (place: string, measured: number) => {
    const line = lines.find((one) => one.place === place);
    if (line === undefined) throw new Error('no such line');
    return packFault(measured, line, lines, 'metric');
  };
  it.each([
    ['pinion-depth', 1.1, /0\.100 mm too thick: it is the pack that came out/u],
    ['pinion-depth', 1.2, /wrong way, 0\.100 mm thicker instead of thinner/u],
    ['pinion-depth', 0.9, /the change was made twice/u],
    ['pinion-depth', 1.06, /0\.060 mm too thick; choose another shim, never grind one/u],
    ['ring-side', 3.05, /the two sides are exchanged|the change went the wrong way/u],
    ['pinion-depth', 0.0394, /inches and millimetres look mixed/u],
  ])('catches a wrong %s pack of %d mm', (place, measured, sentence) => {
    expect(fault(place, measured)).toMatch(sentence);
  });
  it('has nothing against the right pack, nor against one as near as a micrometer tells', () => {
    expect(fault('pinion-depth', 1)).toBeUndefined();
    expect(fault('pinion-depth', 1.012)).toBeUndefined();
    expect(fault('pinion-depth', 1.014)).toBeDefined();
  });
});

describe('the next trial', () => {
  const card: Deed = { kind: 'swap-planned', assembly: 'e3', swap: swapped(0.1, 0) };
  const second: Deed = {
    kind: 'assembled',
    assembly: { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false, swap: 'e7' },
  };
  const start: readonly Deed[] = [
    withMakeUp({}),
    limitsSet,
    trial,
    shimsOf('e3', packs(1.1, 3, 3)),
    backlashOf('e3', 0.2),
    markOf('e3', lowAndToe),
    card,
  ];
  const measuredPack: Deed = {
    kind: 'packs-measured',
    swap: 'e7',
    how: byHand,
    packs: [...packs(1, 3, 3)].slice(0, 1),
  };

  it('waits with its card until it is put together, and a struck card waits no more', () => {
    expect(waitingSwap(buildOf(notebook(...start)))).toMatchObject({ id: 'e7' });
    expect(waitingSwap(buildOf(notebook(...start, measuredPack)))?.measured?.packs).toHaveLength(1);
    expect(waitingSwap(buildOf(notebook(...start, { kind: 'struck', entry: 'e7' })))).toBeUndefined();
    expect(waitingSwap(buildOf(notebook(...start, second)))).toBeUndefined();
  });

  it('is held against what its card expected', () => {
    const build = buildOf(
      notebook(
        ...start,
        measuredPack,
        second,
        shimsOf('e9', packs(1, 3, 3)),
        backlashOf('e9', 0.25),
        markOf('e9', right),
      ),
    );
    const [, two] = build.assemblies;
    if (two === undefined) throw new Error('no second trial');
    expect(swapOf(build, two)?.id).toBe('e7');
    const compared = comparisonOf(build, two);
    expect(compared?.rows.map(({ what, asExpected }) => [what, asExpected])).toEqual([
      ['backlash', false],
      ['drive-height', true],
      ['drive-face', true],
      ['coast-height', true],
      ['coast-face', true],
    ]);
    expect(compared?.otherPacks).toEqual([]);
    expect(comparisonOf(build, build.assemblies[0] ?? two)).toBeUndefined();
  });

  it('says so where other packs went in than the card asked for', () => {
    const build = buildOf(notebook(...start, second, shimsOf('e8', packs(1.05, 3, 3))));
    const [, two] = build.assemblies;
    expect(two === undefined ? [] : comparisonOf(build, two)?.otherPacks.map(({ place }) => place)).toEqual([
      'pinion-depth',
    ]);
  });
});

describe('the drawer', () => {
  const drawer: ShimDrawer = {
    sizes: [
      { use: 'pinion-depth', thickness: { value: 0.05, unit: '[in_i]' }, count: 2 },
      { use: 'side', thickness: { value: 1, unit: 'mm' }, count: 0 },
    ],
  };
  it('is searched by use, in millimetres, without sizes that ran out', () => {
    expect(sizesFor(drawer, 'pinion-depth')).toEqual([{ thickness: 1.27, count: 2 }]);
    expect(sizesFor(drawer, 'side')).toEqual([]);
  });
  it('counts what is taken and what is put back, also a size it did not have', () => {
    const taken = counted(drawer, 'pinion-depth', [1.27, 1.27, 1.27], -1);
    expect(taken.sizes[0]?.count).toBe(0);
    const back = counted(taken, 'pinion-depth', [1.27, 1.1], 1);
    expect(back.sizes.map(({ thickness, count }) => [insideOf(thickness), count])).toEqual([
      [1.27, 1],
      [1, 0],
      [1.1, 1],
    ]);
  });
});
