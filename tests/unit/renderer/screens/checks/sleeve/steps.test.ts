import { describe, expect, it } from 'vitest';
import {
  lastStepOf,
  sleeveAim,
  type SleeveAim,
  stepFrom,
  stepsOf,
} from '../../../../../../src/renderer/screens/checks/sleeve/steps.ts';
import { aimWords, comingWords } from '../../../../../../src/renderer/screens/checks/sleeve/words.ts';
import { sleeveAdvice, type SleeveStep } from '../../../../../../src/shared/measuring/torque/crushSleeve.ts';
import { degrees, newtonMetres } from '../../../../../../src/shared/basics/quantity.ts';
import type { Deed } from '../../../../../../src/shared/job/records/notebook.ts';
import { buildOf, notebook } from '../../../../../support/records/scenario.ts';
import type { TorqueResult } from '../../../../../../src/shared/job/records/measurement.ts';
import type { Limit, SpecSheet } from '../../../../../../src/shared/job/records/specSheet.ts';

const basis = { basis: 'running', seal: 'in', bearings: 'new' } as const;
const Nm = (value: number) => ({ value, unit: 'N.m' });
const band: Limit = { quantity: 'pinion-torque', basis, min: Nm(1.5), max: Nm(2.5), source: 'invented' };
const nut: Limit = { quantity: 'pinion-nut-torque', max: Nm(350), source: 'invented' };
const sheet = (...limits: Limit[]): SpecSheet => ({ name: 'Invented', rule: 'simple', limits });

const result = (running: number, more: Partial<TorqueResult> = {}): TorqueResult => ({
  kind: 'torque',
  basis,
  running_Nm: running,
  breakaway_Nm: running * 1.3,
  breakawayU95_Nm: 0.2,
  ripple_Nm: 0.1,
  drift_Nm: 0,
  average: 'whole-turns',
  turns: 3,
  u_Nm: 0.02,
  U95_Nm: 0.05,
  flags: [],
  parts: [],
  ...more,
});

function aim(...limits: Limit[]): SleeveAim {
  const found = sleeveAim(sheet(...limits), basis);
  if (found === undefined) throw new Error('no aim');
  return found;
}

const step = (running: number, turn_deg?: number): SleeveStep => ({
  running: newtonMetres(running),
  u: 0.02,
  ...(turn_deg === undefined ? {} : { nutTurn: degrees(turn_deg) }),
});

describe('where the creeping goes', () => {
  it('is the band for this state, with the nut’s largest torque as a stop', () => {
    expect(aim(band, nut).target).toEqual({ min: 1.5, max: 2.5, ceiling: 350 });
    expect(aim(band).target).toEqual({ min: 1.5, max: 2.5 });
    expect(aimWords(aim(band, nut), 'metric')).toContain('nut at most 350');
    expect(aimWords(aim(band), 'metric')).toContain('No largest nut torque is entered');
  });

  it('is nowhere without a band, or with one for another state', () => {
    expect(sleeveAim(sheet(nut), basis)).toBeUndefined();
    expect(sleeveAim(sheet(band), { ...basis, seal: 'out' })).toBeUndefined();
    expect(sleeveAim(sheet({ ...band, min: undefined }), basis)).toBeUndefined();
    expect(sleeveAim(undefined, basis)).toBeUndefined();
  });
});

describe('a step of the nut', () => {
  it('is the running torque, or the breakaway where a starting torque counts', () => {
    expect(stepFrom(result(1.2), { turn_deg: 10, torque_Nm: 300 })).toEqual({
      running: 1.2,
      u: 0.02,
      nutTurn: degrees(10),
      nutTorque: 300,
    });
    const starting = result(1, { basis: { ...basis, basis: 'starting' } });
    expect(stepFrom(starting, { turn_deg: undefined, torque_Nm: undefined })).toEqual({ running: 1.3, u: 0.1 });
  });

  it('is none while there is no torque', () => {
    const nothing = result(0, { running_Nm: { none: 'nothing-measured' } });
    expect(stepFrom(nothing, { turn_deg: undefined, torque_Nm: undefined })).toBeUndefined();
  });
});

describe('the steps of an assembly', () => {
  const how = { kind: 'typed', tool: 'beam wrench', resolution: Nm(0.05) } as const;
  const stepped = (running: number): Deed => ({
    kind: 'sleeve-step',
    assembly: 'e1',
    how,
    result: result(running),
    nutTurn_deg: 15,
    nutTorque: Nm(300),
  });
  const wasted: Deed = { kind: 'sleeve-wasted', assembly: 'e1' };
  const undone: Deed = { kind: 'struck', entry: 'e3' };
  const final: Deed = {
    kind: 'assembled',
    assembly: { phase: 'final', bearings: 'new', seal: 'in', sleeve: true },
  };
  const after = (...deeds: readonly Deed[]) => {
    const [assembly] = buildOf(notebook(final, ...deeds)).assemblies;
    if (assembly === undefined) throw new Error('no assembly');
    return assembly;
  };
  const running = (...deeds: readonly Deed[]) => stepsOf(after(...deeds)).map((one) => one.running);

  it('are those in the notebook, with what was done to the nut', () => {
    expect(running()).toEqual([]);
    expect(running(stepped(0.4), stepped(0.6))).toEqual([0.4, 0.6]);
    expect(stepsOf(after(stepped(0.4)))).toEqual([{ running: 0.4, u: 0.02, nutTurn: degrees(15), nutTorque: 300 }]);
  });

  it('are struck through when one is taken back', () => {
    const assembly = after(stepped(0.4), stepped(0.6));
    expect(lastStepOf(assembly)).toBe('e3');
    expect(running(stepped(0.4), stepped(0.6), undone)).toEqual([0.4]);
    expect(lastStepOf(after())).toBeUndefined();
  });

  it('begin at the beginning on a new sleeve, and the wasted one keeps its own', () => {
    const assembly = after(stepped(1), stepped(3.9), wasted, stepped(0.5));
    expect(stepsOf(assembly).map((one) => one.running)).toEqual([0.5]);
    expect(assembly.sleeves.map((sleeve) => sleeve.length)).toEqual([2, 1]);
    expect(running(stepped(1), wasted)).toEqual([]);
  });
});

describe('what comes next', () => {
  const { target } = aim(band, nut);

  it('is said with its doubt and the way to the middle', () => {
    const words = comingWords(sleeveAdvice([step(0.4, 10), step(0.7, 10)], target), 'metric');
    expect(words).toMatch(/^One more like the last is expected at 1\.00 N·m ± 0\.\d\d N·m\./u);
    expect(words).toMatch(/about 43° of the nut away; take half of that\.$/u);
  });

  it('is not said in the band, above it, or after one step', () => {
    for (const steps of [[step(0.4)], [step(1), step(2)], [step(2), step(3)]])
      expect(comingWords(sleeveAdvice(steps, target), 'metric')).toBeUndefined();
  });
});
