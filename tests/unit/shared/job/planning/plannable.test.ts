import { describe, expect, it } from 'vitest';
import type { Build } from '../../../../../src/shared/job/records/build.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { planInputSchema } from '../../../../../src/shared/axle/plan/input.ts';
import { promised } from '../../axle/plan/scenes.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { assumedIn } from '../../../../../src/shared/job/planning/assumed.ts';
import { foresee } from '../../../../../src/shared/job/planning/foresee.ts';
import { plannableOf } from '../../../../../src/shared/job/planning/plannable.ts';
import { expectedSchema } from '../../../../../src/shared/job/records/swap.ts';
import { nextStep } from '../../../../../src/shared/job/checks/readiness.ts';
import {
  asFound,
  backlash,
  buildOf,
  final,
  limitsSet,
  makeUp,
  measured,
  notebook,
  seen,
  trial,
} from '../../../../support/records/scenario.ts';
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

// Entry ids count up from e0 (the start): e1 described, e2 limits, e3 the first trial.
const firstTrial: readonly Deed[] = [
  trial,
  shimsOf('e3', packs(1.1, 3, 3)),
  backlashOf('e3', 0.2),
  markOf('e3', lowAndToe),
];
const secondTrial = (of: Deed): readonly Deed[] => [trial, of, backlashOf('e7', 0.21), markOf('e7', right)];
const build = (...deeds: readonly Deed[]): Build => buildOf(notebook(withMakeUp({}), limitsSet, ...deeds));

const asked = (from: Build) => {
  const read = plannableOf(from);
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.value;
};

describe('what a build tells the plan', () => {
  it('says which trial was looked at and is as told, until something is measured on it anew', () => {
    const looked: Deed = { kind: 'looked-at', assembly: 'e7' };
    const two = [...firstTrial, ...secondTrial(trial), shimsOf('e7', packs(1.1, 3, 3))];
    const told = (...more: readonly Deed[]) => asked(build(...two, ...more)).input.trials.map((one) => one.looked);
    expect(told()).toEqual([false, false]);
    expect(told(looked)).toEqual([false, true]);
    expect(told(looked, backlashOf('e7', 0.22))).toEqual([false, false]);
  });

  it('is a question the plan takes, with the first trial at nought', () => {
    const { input, notes } = asked(build(...firstTrial));
    expect(planInputSchema.parse(input)).toEqual(input);
    expect(input.trials).toHaveLength(1);
    expect(input.trials[0]).toMatchObject({
      pinionOut_mm: 0,
      ringAway_mm: 0,
      backlash: { mean_mm: 0.2, U95_mm: 0.006 },
    });
    expect(input.set).toMatchObject({ offset_mm: 30, driveFlank: 'convex' });
    expect(input.limits.backlash_mm).toEqual([0.15, 0.25]);
    expect(notes).toEqual([]);
  });

  it('works movements out from the packs: thinner under the head is out, thinner on the ring-gear side is away', () => {
    const { input } = asked(build(...firstTrial, ...secondTrial(shimsOf('e7', packs(1, 2.9, 3.1)))));
    expect(input.trials[1]).toMatchObject({ pinionOut_mm: 0.1, ringAway_mm: 0.1 });
  });

  it.each([
    ['under-head-bearing', 0.1],
    ['behind-head-cup', 0.1],
    ['under-cage', -0.1],
  ] as const)('knows which way a depth shim %s works', (depthShimPlace, out) => {
    const from = buildOf(
      notebook(
        withMakeUp({ depthShimPlace, ...(out < 0 ? { pinionMount: 'caged' } : {}) }),
        limitsSet,
        ...firstTrial,
        ...secondTrial(shimsOf('e7', packs(1, 3, 3))),
      ),
    );
    expect(asked(from).input.trials[1]?.pinionOut_mm).toBe(out);
  });

  it('takes more preload on both sides for no movement of the ring gear', () => {
    const { input } = asked(build(...firstTrial, ...secondTrial(shimsOf('e7', packs(1.1, 3.05, 3.05)))));
    expect(input.trials[1]?.ringAway_mm).toBe(0);
  });

  it('says whose packs are missing, and leaves out an earlier trial without them', () => {
    const without = [trial, backlashOf('e7', 0.21), markOf('e7', right)] as const;
    expect(plannableOf(build(...firstTrial, ...without))).toMatchObject({ ok: false, problem: { kind: 'no-pack' } });
    const third = [trial, shimsOf('e10', packs(1, 3, 3)), backlashOf('e10', 0.21), markOf('e10', right)] as const;
    const { input, notes } = asked(build(...firstTrial, ...without, ...third));
    expect(input.trials).toHaveLength(2);
    expect(notes).toEqual(['Trial 2 is left out: its packs were not measured.']);
  });

  it('with adjusters works the ring gear’s place out from the backlash, and says so', () => {
    const deeds = [...firstTrial, trial, shimsOf('e7', packs(1.1, 3, 3)), backlashOf('e7', 0.27), markOf('e7', right)];
    const { input, notes } = asked(
      buildOf(notebook(withMakeUp({ caseAdjustment: 'threaded-adjusters' }), limitsSet, ...deeds)),
    );
    // 0.07 mm more backlash at 0.7 to 1.1 for each mm away.
    expect(input.trials[1]?.ringAway_mm).toBeGreaterThan(0.06);
    expect(input.trials[1]?.ringAway_mm).toBeLessThan(0.1);
    expect(notes).toHaveLength(1);
  });

  it('takes the final assembly in like a trial, and says that it runs on other bearings', () => {
    const closed = [
      final,
      shimsOf('e7', packs(1, 2.95, 3.05)),
      backlashOf('e7', 0.24),
      markOf('e7', lowAndToe),
    ] as const;
    const { input, trials, notes } = asked(build(...firstTrial, ...closed));
    expect(trials.map(({ phase }) => phase)).toEqual(['trial', 'final']);
    expect(input.trials[1]).toMatchObject({ pinionOut_mm: 0.1, ringAway_mm: 0.05, backlash: { mean_mm: 0.24 } });
    expect(input.trials[1]?.pattern.drive.crown).toBe(-0.26);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toContain('good bearings');
    expect(asked(build(...firstTrial)).notes).toEqual([]);
  });

  it('counts the notches of cards into and out of the final assembly', () => {
    const card = (assembly: string): Deed => ({
      kind: 'swap-planned',
      assembly,
      swap: {
        chosenBy: 'own',
        pinionOut_mm: 0,
        ringAway_mm: 0.1,
        lines: [],
        notches: 2,
        expected: expectedAt(0.24),
      },
    });
    const byCard = (phase: 'trial' | 'final', swap: string): Deed => ({
      kind: 'assembled',
      assembly: { phase, bearings: phase === 'final' ? 'new' : 'set-up', seal: 'out', sleeve: false, swap },
    });
    const read = (assembly: string, mean: number) =>
      [shimsOf(assembly, packs(1.1, 3, 3)), backlashOf(assembly, mean), markOf(assembly, right)] as const;
    const from = buildOf(
      notebook(
        withMakeUp({ caseAdjustment: 'threaded-adjusters', ringStep_mm: 0.05 }),
        limitsSet,
        ...firstTrial,
        card('e3'),
        byCard('final', 'e7'),
        ...read('e8', 0.24),
        card('e8'),
        byCard('trial', 'e12'),
        ...read('e13', 0.24),
      ),
    );
    expect(asked(from).input.trials.map(({ ringAway_mm }) => ringAway_mm)).toEqual([0, 0.1, 0.2]);
  });

  it('sends a used set back to the marks and, with tight bearings, to the backlash it came with', () => {
    const found = (tight: boolean): readonly Deed[] => [
      asFound,
      measured('e3', 'backlash', backlash([0.22, 0.22, 0.22, 0.22])),
      measured('e3', 'case-tight', { kind: 'confirmed', yes: tight }),
      markOf('e3', right),
      trial,
      shimsOf('e7', packs(1.1, 3, 3)),
      backlashOf('e7', 0.2),
      markOf('e7', lowAndToe),
    ];
    const used = (tight: boolean) => buildOf(notebook(withMakeUp({ gearSet: 'used' }), limitsSet, ...found(tight)));
    expect(asked(used(true)).input.target).toMatchObject({ kind: 'used-set', backlash_mm: 0.22 });
    expect(asked(used(false)).input.target).not.toHaveProperty('backlash_mm');
    expect(asked(used(false)).notes).toHaveLength(1);
    const lost = buildOf(notebook(withMakeUp({ gearSet: 'used' }), limitsSet, ...firstTrial));
    expect(plannableOf(lost)).toMatchObject({ ok: false, problem: { kind: 'no-target' } });
  });

  it('names what is missing', () => {
    const { outerDiameter_mm: _, ...small } = makeUp;
    const kind = (from: Build) => {
      const read = plannableOf(from);
      return read.ok ? 'none' : read.problem.kind;
    };
    expect(kind(buildOf(notebook()))).toBe('not-described');
    expect(kind(buildOf(notebook({ kind: 'described', makeUp: small }, limitsSet)))).toBe('no-diameter');
    expect(kind(build())).toBe('no-trial');
    expect(kind(build(trial, backlashOf('e3', 0.2)))).toBe('no-trial');
    expect(
      kind(buildOf(notebook(withMakeUp({}), { kind: 'noted', topic: 'note', text: 'no limits' }, ...firstTrial))),
    ).toBe('no-window');
  });

  it('lists what is assumed, the offset first, and nothing that was read off', () => {
    expect(assumedIn(makeUp, 'metric')[0]).toBe('offset 0');
    const told = assumedIn({ ...makeUp, offset_mm: 30, faceWidth_mm: 32 }, 'metric').join('; ');
    expect(told).not.toMatch(/offset|face width/u);
    expect(told).toMatch(/pressure angle 20/u);
  });
});

describe('what is foreseen at a place', () => {
  it('is what the plan expects where it stands, and follows the pinion', () => {
    const { input } = asked(build(...firstTrial));
    const sight = sightOf(input);
    const answer = plan(input);
    if (!sight.ok || !answer.ok) throw new Error('no such set');
    const insight = insightFrom(input, sight.value);
    const { pinionOut_mm: pinionOut, ringAway_mm: ringAway } = answer.value;
    const expected = promised(answer.value);
    const there = foresee(insight, input, { pinionOut, ringAway }).expected;
    expect(expectedSchema.parse(there)).toEqual(there);
    expect(there.drive?.crown).toBeCloseTo(expected.pattern.drive.crown, 2);
    expect(there.backlash.mean_mm).toBeCloseTo(expected.backlash.mean_mm, 3);
    expect(there.backlash.U95_mm).toBeCloseTo(expected.U95.backlash_mm, 3);
    const here = foresee(insight, input, { pinionOut: 0, ringAway: 0 }).expected;
    expect(there.drive?.crown).toBeGreaterThan((here.drive?.crown ?? Number.NaN) + 0.1);
    expect(here.drive?.edges.root).not.toBe('clear');
  });
});

describe('the next step after a mark that asks for a change', () => {
  it('is the plan where it has what it needs, else another trial', () => {
    const gated: readonly Deed[] = firstTrial;
    const overridden = [
      'set-numbers',
      'cup-seat',
      'flange-runout',
      'ring-gear-seat',
      'ring-bolt-torque',
      'ring-gear-runout',
      'pinion-torque',
      'case-end-play',
      'cap-torque',
      'backlash',
    ] as const;
    const reasons = overridden.map(
      (check) => ({ kind: 'overridden', assembly: 'e3', check, reason: 'for this test' }) as const,
    );
    expect(nextStep(build(...gated, ...reasons))).toEqual({ do: 'look-at-plan' });
    const oneFlank = measured('e3', 'mark', { ...lowAndToe, coast: { none: 'no mark on this flank' } }, seen);
    expect(nextStep(build(...gated, ...reasons, oneFlank))).toEqual({ do: 'open-trial' });
  });

  it('is the plan after the final assembly too', () => {
    const closed = [final, shimsOf('e7', packs(1.1, 3, 3)), backlashOf('e7', 0.2), markOf('e7', lowAndToe)] as const;
    expect(nextStep(build(...firstTrial, ...closed))).toEqual({ do: 'look-at-plan' });
    const stands: Deed = { kind: 'overridden', assembly: 'e7', check: 'mark', reason: 'The owner wants it closed' };
    expect(nextStep(build(...firstTrial, ...closed, stands))).not.toEqual({ do: 'look-at-plan' });
  });
});
