import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import {
  caseAdjustments,
  depthShimPlaces,
  type MakeUp,
  pinionMounts,
  pinionPreloads,
  shimPlacesOf,
} from '../../../../../src/shared/axle/makeUp.ts';
import { phases } from '../../../../../src/shared/job/records/checkIds.ts';
import { checkOf, checks, checksOf, needOf } from '../../../../../src/shared/job/checks/checks.ts';
import { judgeCheck } from '../../../../../src/shared/job/checks/judge.ts';
import { isDescribed, markJudgement, nextStep, readinessOf } from '../../../../../src/shared/job/checks/readiness.ts';
import {
  asFound,
  backlash,
  buildOf,
  byHand,
  described,
  final,
  limitsSet,
  makeUp,
  measured,
  notebook,
  specSheet,
  trial,
  stripping,
} from '../../../../support/records/scenario.ts';

const readiness = (...deeds: readonly Deed[]) => {
  const build = buildOf(notebook(described, limitsSet, ...deeds));
  const assembly = build.assemblies.at(-1);
  if (!isDescribed(build) || assembly === undefined) throw new Error('the scenario has no assembly');
  return readinessOf(build, assembly);
};
const stateOf = (check: string, ...deeds: readonly Deed[]) =>
  readiness(...deeds).states.find((state) => state.check.id === check);

const runout = (tir: number, U95 = 0.005): Parameters<typeof measured>[2] => ({
  kind: 'runout',
  tir_mm: tir,
  harmonics: [],
  residual_mm: 0,
  stations: [],
  missAtWorst_mm: 0,
  shape: 'unknown',
  u_mm: U95 / 2,
  U95_mm: U95,
  flags: [],
  parts: [],
});
const torque = (
  running: number,
  bearings: 'set-up' | 'new' = 'set-up',
  seal: 'in' | 'out' = 'out',
): Parameters<typeof measured>[2] => ({
  kind: 'torque',
  basis: { basis: 'running', seal, bearings },
  running_Nm: running,
  breakaway_Nm: running * 1.5,
  breakawayU95_Nm: 0.1,
  ripple_Nm: 0.05,
  drift_Nm: 0,
  average: 'whole-turns',
  turns: 3,
  u_Nm: 0.01,
  U95_Nm: 0.02,
  flags: [],
  parts: [],
});
const length = (value: number): Parameters<typeof measured>[2] => ({ kind: 'quantity', value: { value, unit: 'mm' } });
const newtonMetres = (value: number): Parameters<typeof measured>[2] => ({
  kind: 'quantity',
  value: { value, unit: 'N.m' },
});
const feeler = (entered: boolean): Parameters<typeof measured>[2] => ({
  kind: 'feeler',
  thickness: { value: 0.05, unit: 'mm' },
  entered,
  places: 4,
});

/** Everything a trial asks for, all good; the trial is entry e3. */
const goodTrial: readonly Deed[] = [
  trial,
  measured('e3', 'set-numbers', { kind: 'set-numbers', pinion: '417', ringGear: '417' }),
  measured('e3', 'shims', { kind: 'shims', packs: [] }),
  measured('e3', 'cup-seat', feeler(false)),
  measured('e3', 'flange-runout', runout(0.02)),
  measured('e3', 'ring-gear-seat', feeler(false)),
  measured('e3', 'ring-bolt-torque', newtonMetres(95), byHand),
  measured('e3', 'ring-gear-runout', runout(0.04)),
  measured('e3', 'pinion-torque', torque(0.6)),
  measured('e3', 'case-end-play', length(0), byHand),
  measured('e3', 'cap-torque', newtonMetres(80), byHand),
  measured('e3', 'backlash', backlash([0.19, 0.2, 0.21, 0.2])),
];

describe('the table of checks', () => {
  const makeUps: MakeUp[] = caseAdjustments.flatMap((caseAdjustment) =>
    pinionMounts.flatMap((pinionMount) =>
      pinionPreloads.flatMap((pinionPreload) =>
        depthShimPlaces.map((depthShimPlace) => ({
          ...makeUp,
          caseAdjustment,
          pinionMount,
          pinionPreload,
          depthShimPlace,
        })),
      ),
    ),
  );

  it('answers for every phase of every make-up, and asks for backlash in all but while it comes apart', () => {
    for (const one of makeUps) {
      for (const phase of phases) {
        const asked = checksOf(phase, one);
        expect(asked.map(({ id }) => id)).toEqual(
          checks.filter((check) => needOf(check, phase, one) !== 'not-asked').map(({ id }) => id),
        );
        const backlashAsked = asked.find(({ id }) => id === 'backlash')?.needed;
        expect(backlashAsked).toBe(phase === 'stripping' ? undefined : 'required');
      }
    }
  });

  it('lets the make-up decide', () => {
    const adjusters = { ...makeUp, caseAdjustment: 'threaded-adjusters', pinionPreload: 'solid-spacer' } as const;
    expect(needOf(checkOf('adjuster-locks'), 'final', adjusters)).toBe('required');
    expect(needOf(checkOf('adjuster-locks'), 'final', makeUp)).toBe('not-asked');
    expect(needOf(checkOf('sleeve-new'), 'final', makeUp)).toBe('required');
    expect(needOf(checkOf('sleeve-new'), 'final', adjusters)).toBe('not-asked');
    expect(needOf(checkOf('case-end-play'), 'trial', { ...makeUp, trialBearings: 'final' })).toBe('optional');
    expect(needOf(checkOf('mark'), 'as-found', { ...makeUp, gearSet: 'used' })).toBe('required');
    expect(shimPlacesOf(makeUp)).toEqual(['pinion-depth', 'ring-side', 'opposite-side']);
    expect(shimPlacesOf(adjusters)).toEqual(['pinion-depth', 'pinion-preload']);
  });
});

describe('ready to paint', () => {
  it('is reached when everything required is known and within', () => {
    expect(readiness(...goodTrial)).toMatchObject({ gate: 'ready-to-paint', ready: true, inTheWay: [] });
  });

  it('says what stands in the way, in order', () => {
    const { ready, inTheWay } = readiness(trial);
    expect(ready).toBe(false);
    expect(inTheWay.map(({ check }) => check.id).slice(0, 3)).toEqual(['set-numbers', 'shims', 'cup-seat']);
    expect(inTheWay.some(({ check }) => check.id === 'mark')).toBe(false);
  });

  it.each([
    ['one station outside the window', measured('e3', 'backlash', backlash([0.19, 0.2, 0.27, 0.25])), 'backlash'],
    ['three stations only', measured('e3', 'backlash', backlash([0.19, 0.2, 0.21])), 'backlash'],
    ['a station without a number', measured('e3', 'backlash', backlash([0.19, 0.2, 0.21, 'drift'])), 'backlash'],
    ['too much variation inside the window', measured('e3', 'backlash', backlash([0.16, 0.2, 0.22, 0.2])), 'backlash'],
    [
      'set numbers that differ',
      measured('e3', 'set-numbers', { kind: 'set-numbers', pinion: '417', ringGear: '471' }),
      'set-numbers',
    ],
    ['runout above its limit', measured('e3', 'ring-gear-runout', runout(0.09)), 'ring-gear-runout'],
  ])('is kept shut by %s', (_what, deed, check) => {
    const { ready, inTheWay } = readiness(...goodTrial, deed);
    expect(ready).toBe(false);
    expect(inTheWay.map((state) => state.check.id)).toEqual([check]);
  });

  it('opens for an override with a reason, and keeps the reason', () => {
    const override: Deed = {
      kind: 'overridden',
      assembly: 'e3',
      check: 'backlash',
      reason: 'only painting to see the depth',
    };
    const result = readiness(...goodTrial, measured('e3', 'backlash', backlash([0.3, 0.3, 0.3, 0.3])), override);
    expect(result.ready).toBe(true);
    expect(result.states.find((state) => state.check.id === 'backlash')).toMatchObject({
      standing: 'outside',
      override: { reason: override.reason },
    });
  });

  it('warns about a close call without shutting, and shuts under the guarded rule', () => {
    const close = measured('e3', 'backlash', backlash([0.19, 0.2, 0.198, 0.152]));
    expect(readiness(...goodTrial, close)).toMatchObject({ ready: true, closeCalls: [{ check: { id: 'backlash' } }] });
    const guarded: Deed = { kind: 'limits-set', specSheet: { ...specSheet, rule: 'guarded' } };
    expect(readiness(...goodTrial, close, guarded).inTheWay.map(({ standing }) => standing)).toEqual(['too-close']);
  });
});

describe('limits and their bases', () => {
  it('never compares torques across bearings, seal or basis', () => {
    expect(stateOf('pinion-torque', trial, measured('e3', 'pinion-torque', torque(0.6, 'new')))).toMatchObject({
      standing: 'recorded',
      why: expect.stringContaining('set-up bearings'),
    });
    expect(stateOf('pinion-torque', trial, measured('e3', 'pinion-torque', torque(0.6, 'set-up', 'in')))).toMatchObject(
      { standing: 'recorded', why: expect.stringContaining('seal') },
    );
    expect(stateOf('pinion-torque', trial, measured('e3', 'pinion-torque', torque(0.6)))).toMatchObject({
      standing: 'within',
    });
  });

  it('of several limits for one quantity judges by the one for the state at hand', () => {
    const both: Deed = {
      kind: 'limits-set',
      specSheet: {
        ...specSheet,
        limits: [
          ...specSheet.limits,
          {
            quantity: 'pinion-torque',
            basis: { basis: 'running', seal: 'in', bearings: 'new' },
            min: { value: 2, unit: 'N.m' },
            max: { value: 3, unit: 'N.m' },
            source: 'sheet',
          },
        ],
      },
    };
    expect(stateOf('pinion-torque', trial, both, measured('e3', 'pinion-torque', torque(0.6)))).toMatchObject({
      standing: 'within',
    });
    expect(
      stateOf('pinion-torque', final, both, measured('e3', 'pinion-torque', torque(3.5, 'new', 'in'))),
    ).toMatchObject({ standing: 'outside' });
  });

  it('never compares backlash across bases', () => {
    const square = { ...backlash([0.2, 0.2, 0.2, 0.2]), basis: { direction: 'square-to-tooth', at: 'heel' } } as const;
    expect(stateOf('backlash', trial, measured('e3', 'backlash', square))).toMatchObject({
      standing: 'no-limit',
      why: expect.stringContaining('square to the tooth'),
    });
  });

  it('calls a backlash outside by its worst station, even while another has no number', () => {
    const standingOf = (values: readonly (number | string)[]) =>
      stateOf('backlash', trial, measured('e3', 'backlash', backlash(values)))?.standing;
    expect(standingOf([0.2, 0.3, 0.2, 'drift'])).toBe('outside');
    expect(standingOf([0.3])).toBe('outside');
    expect(standingOf([0.2, 0.21, 0.2, 'drift'])).toBe('not-measured');
  });

  it('records what the sheet has no limit for, names it, and lets it stand in nobody’s way', () => {
    const noLimits: Deed = { kind: 'limits-set', specSheet: { ...specSheet, limits: [] } };
    const result = readiness(...goodTrial, noLimits);
    expect(result.states.find((state) => state.check.id === 'backlash')).toMatchObject({
      standing: 'no-limit',
      inTheWay: false,
    });
    expect(result.withoutLimit.map((state) => state.check.id)).toEqual([
      'flange-runout',
      'ring-gear-runout',
      'backlash',
    ]);
    // Nobody prints a torque for set-up bearings: it is recorded, and no limit is missing.
    expect(result.states.find((state) => state.check.id === 'pinion-torque')).toMatchObject({ standing: 'recorded' });
    expect(result.states.find((state) => state.check.id === 'cap-torque')).toMatchObject({
      standing: 'recorded',
      inTheWay: false,
    });
  });

  it('takes a feeler for what it can tell', () => {
    const limit = { quantity: 'cup-seat', max: { value: 0.04, unit: 'mm' }, source: 'sheet' } as const;
    const sheet = { ...specSheet, limits: [limit] };
    const judge = (thickness: number, entered: boolean) => {
      const build = buildOf(
        notebook(
          described,
          trial,
          measured('e2', 'cup-seat', {
            kind: 'feeler',
            thickness: { value: thickness, unit: 'mm' },
            entered,
            places: 4,
          }),
        ),
      );
      const assembly = build.assemblies[0];
      if (assembly === undefined) throw new Error('no assembly');
      return judgeCheck(checkOf('cup-seat'), assembly.measurements[0], assembly, sheet).standing;
    };
    expect(judge(0.04, false)).toBe('within');
    expect(judge(0.04, true)).toBe('outside');
    expect(judge(0.06, false)).toBe('not-measured');
    expect(judge(0.02, true)).toBe('not-measured');
  });
});

describe('the next step', () => {
  it('walks from the description of the axle to the certificate', () => {
    expect(nextStep(buildOf(notebook()))).toEqual({ do: 'describe-axle' });
    expect(nextStep(buildOf(notebook(described)))).toEqual({ do: 'enter-limits' });
    expect(nextStep(buildOf(notebook(described, limitsSet)))).toEqual({ do: 'open-as-found' });
    expect(nextStep(buildOf(notebook(described, limitsSet, asFound)))).toMatchObject({
      do: 'check',
      check: { id: 'case-tight' },
    });
    const found = [asFound, measured('e3', 'case-tight', { kind: 'confirmed', yes: true })];
    const stillTogether = [...found, measured('e3', 'backlash', backlash([0.2, 0.21, 0.2, 0.19]))];
    expect(nextStep(buildOf(notebook(described, limitsSet, ...stillTogether)))).toEqual({ do: 'open-stripping' });
    expect(nextStep(buildOf(notebook(described, limitsSet, ...stillTogether, stripping)))).toMatchObject({
      do: 'check',
      check: { id: 'caps-marked' },
    });
    expect(nextStep(buildOf(notebook(described, limitsSet, ...goodTrial)))).toMatchObject({
      do: 'check',
      check: { id: 'mark' },
    });
  });

  it('settles what is outside before it asks for paint', () => {
    const deeds = [...goodTrial, measured('e3', 'ring-gear-runout', runout(0.2))];
    expect(nextStep(buildOf(notebook(described, limitsSet, ...deeds)))).toMatchObject({
      do: 'settle',
      state: { check: { id: 'ring-gear-runout' } },
    });
  });

  const mark = (assembly: string, judgement: 'accepted' | 'change') =>
    measured(assembly, 'mark', { kind: 'mark', drive: { none: 'not drawn' }, coast: { none: 'not drawn' }, judgement });

  it('goes to the final assembly when the mark is accepted, else to a further trial', () => {
    expect(nextStep(buildOf(notebook(described, limitsSet, ...goodTrial, mark('e3', 'accepted'))))).toEqual({
      do: 'open-final',
    });
    expect(nextStep(buildOf(notebook(described, limitsSet, ...goodTrial, mark('e3', 'change'))))).toEqual({
      do: 'open-trial',
    });
  });

  it('follows a mark that asks for a change before anything else that is missing', () => {
    const early = [trial, measured('e3', 'backlash', backlash([0.2, 0.2, 0.2, 0.2])), mark('e3', 'change')];
    expect(nextStep(buildOf(notebook(described, limitsSet, ...early)))).toEqual({ do: 'open-trial' });
  });

  it('reads what is missing where a trial has its mark and no backlash: from that alone no shim follows', () => {
    const markAlone = buildOf(notebook(described, limitsSet, trial, mark('e3', 'change')));
    expect(nextStep(markAlone)).toMatchObject({ do: 'check', assembly: 'e3' });
  });

  it('settles set numbers that differ before it asks for the shims', () => {
    const numbers = measured('e3', 'set-numbers', { kind: 'set-numbers', pinion: '4711', ringGear: '4712' });
    expect(nextStep(buildOf(notebook(described, limitsSet, trial, numbers)))).toMatchObject({
      do: 'settle',
      state: { check: { id: 'set-numbers' } },
    });
  });
});

describe('what carries over to the next trial', () => {
  const second = buildOf(notebook(described, limitsSet, ...goodTrial, trial));
  const states = (build = second) => {
    const assembly = build.assemblies.at(-1);
    if (!isDescribed(build) || assembly === undefined) throw new Error('no second trial');
    return readinessOf(build, assembly).states;
  };

  it('is what another shim cannot change, said with the trial it was taken on', () => {
    const carried = states().filter((state) => state.carriedFrom === 'Trial 1');
    expect(carried.map(({ check }) => check.id)).toEqual([
      'set-numbers',
      'flange-runout',
      'ring-gear-seat',
      'ring-bolt-torque',
      'ring-gear-runout',
    ]);
    expect(carried.every(({ standing }) => standing === 'within' || standing === 'recorded')).toBe(true);
  });

  it('is never a backlash, a torque or a shim', () => {
    expect(
      states()
        .filter(({ standing }) => standing === 'not-measured')
        .map(({ check }) => check.id),
    ).toEqual(expect.arrayContaining(['backlash', 'pinion-torque', 'shims', 'cap-torque', 'mark']));
  });

  it('gives way to a new reading', () => {
    const build = buildOf(
      notebook(described, limitsSet, ...goodTrial, trial, measured('e15', 'ring-gear-runout', runout(0.2))),
    );
    expect(build.assemblies.at(-1)?.id).toBe('e15');
    expect(states(build).find(({ check }) => check.id === 'ring-gear-runout')).toMatchObject({ standing: 'outside' });
    expect(states(build).find(({ check }) => check.id === 'ring-gear-runout')?.carriedFrom).toBeUndefined();
  });
});

describe('what stands in the way of which gate', () => {
  const confirmed = (assembly: string, check: 'case-tight' | 'caps-marked' | 'pins-and-clips', yes: boolean) =>
    measured(assembly, check, { kind: 'confirmed', yes });
  const inTheWay = (...deeds: readonly Deed[]) => readiness(...deeds).inTheWay.map(({ check }) => check.id);

  it('as found nothing is a fault, and what is required and not recorded is lost for good', () => {
    const loose = [asFound, confirmed('e3', 'case-tight', false)];
    expect(readiness(...loose)).toMatchObject({ gate: undefined });
    expect(inTheWay(...loose)).toEqual(['backlash']);
    expect(inTheWay(...loose, measured('e3', 'backlash', backlash([0.4, 0.4, 0.4, 0.4])))).toEqual([]);
  });

  it('the mark comes after ready to paint, and before ready to close', () => {
    expect(readiness(...goodTrial)).toMatchObject({ gate: 'ready-to-paint', ready: true });
    expect(readiness(final).gate).toBe('ready-to-close');
    expect(inTheWay(final)).toContain('mark');
    expect(inTheWay(trial)).not.toContain('mark');
  });

  it('what is only asked for may be left out, but not be found wrong', () => {
    expect(inTheWay(final)).not.toContain('pins-and-clips');
    expect(inTheWay(final, confirmed('e3', 'pins-and-clips', false))).toContain('pins-and-clips');
    expect(inTheWay(final, confirmed('e3', 'pins-and-clips', true))).not.toContain('pins-and-clips');
  });

  it('what was measured without being asked stays in sight, as asked for', () => {
    const state = stateOf('case-tight', trial, confirmed('e3', 'case-tight', true));
    expect(state).toMatchObject({ needed: 'optional', standing: 'within' });
    expect(stateOf('case-tight', trial)).toBeUndefined();
  });

  it('as found takes nothing over from an earlier trial', () => {
    const again = readiness(...goodTrial, asFound);
    expect(again.states.every(({ carriedFrom }) => carriedFrom === undefined)).toBe(true);
  });
});

describe('the next step after a mark', () => {
  const mark = (assembly: string, judgement: 'accepted' | 'change' | 'recorded') =>
    measured(assembly, 'mark', { kind: 'mark', drive: { none: 'not drawn' }, coast: { none: 'not drawn' }, judgement });

  it('is known from the last one read', () => {
    const [assembly] = buildOf(notebook(trial, mark('e1', 'change'), mark('e1', 'accepted'))).assemblies;
    const [bare] = buildOf(notebook(trial)).assemblies;
    if (assembly === undefined || bare === undefined) throw new Error('no trial');
    expect(markJudgement(assembly)).toBe('accepted');
    expect(markJudgement(bare)).toBe('none');
  });

  it('in the final assembly that asks for a change is a further trial, whatever else is missing there', () => {
    const last = buildOf(notebook(described, limitsSet, final, mark('e3', 'change')));
    expect(nextStep(last)).toEqual({ do: 'open-trial' });
  });

  it('waits for nobody while something required is missing, unless that was overridden', () => {
    const without = goodTrial.filter((deed) => deed.kind !== 'measured' || deed.check !== 'cap-torque');
    const accepted = [...without, mark('e3', 'accepted')];
    expect(nextStep(buildOf(notebook(described, limitsSet, ...accepted)))).toMatchObject({
      do: 'check',
      check: { id: 'cap-torque' },
    });
    const override: Deed = { kind: 'overridden', assembly: 'e3', check: 'cap-torque', reason: 'torqued by another' };
    expect(nextStep(buildOf(notebook(described, limitsSet, ...accepted, override)))).toEqual({ do: 'open-final' });
  });
});
