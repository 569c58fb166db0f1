import { beforeEach, describe, expect, it } from 'vitest';
import {
  dropStep,
  keepStep,
  newSleeve,
  sleeveAim,
  type SleeveAim,
  stepFrom,
  stepsOf,
  useSleeve,
} from '../../../../../../src/renderer/screens/checks/sleeve/steps.ts';
import { aimWords, comingWords } from '../../../../../../src/renderer/screens/checks/sleeve/words.ts';
import { sleeveAdvice, type SleeveStep } from '../../../../../../src/shared/measuring/torque/crushSleeve.ts';
import { degrees, newtonMetres } from '../../../../../../src/shared/basics/quantity.ts';
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
  beforeEach(() => newSleeve('e1'));
  const now = (of: string) => stepsOf(useSleeve.getState(), of).map(({ running }) => running);

  it('are kept, taken back, and belong to it alone', () => {
    keepStep('e1', step(0.4));
    keepStep('e1', step(0.6));
    expect(now('e1')).toEqual([0.4, 0.6]);
    expect(now('e2')).toEqual([]);
    dropStep('e1');
    expect(now('e1')).toEqual([0.4]);
    newSleeve('e1');
    expect(now('e1')).toEqual([]);
  });

  it('give the same list while nothing changes, so that no screen draws itself in circles', () => {
    expect(stepsOf(useSleeve.getState(), 'e2')).toBe(stepsOf(useSleeve.getState(), 'e2'));
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
