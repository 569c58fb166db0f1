import { describe, expect, it } from 'vitest';
import type { Assembly, Measurement } from '../../../../../src/shared/job/records/build.ts';
import { unfinished, valuesFor } from '../../../../../src/shared/job/checks/valuesJudged.ts';
import type { CheckId } from '../../../../../src/shared/job/records/checkIds.ts';
import type { How, MeasuredResult } from '../../../../../src/shared/job/records/measurement.ts';
import type { Limit } from '../../../../../src/shared/job/records/specSheet.ts';
import { backlash, buildOf, measured, notebook, seen, trial } from '../../../../support/records/scenario.ts';

function taken(check: CheckId, result: MeasuredResult, how: How = seen): readonly [Measurement, Assembly] {
  const [assembly] = buildOf(notebook(trial, measured('e1', check, result, how))).assemblies;
  const measurement = assembly?.measurements[0];
  if (assembly === undefined || measurement === undefined) throw new Error('nothing measured');
  return [measurement, assembly];
}
const values = (limit: Limit, check: CheckId, result: MeasuredResult, how?: How) =>
  valuesFor(limit, ...taken(check, result, how));

const mm = (value: number) => ({ value, unit: 'mm' });
const source = 'invented';
const runout: Limit = { quantity: 'ring-gear-runout', max: mm(0.05), source };
const window: Limit = {
  quantity: 'backlash',
  basis: { direction: 'along-rotation', at: 'heel' },
  min: mm(0.15),
  max: mm(0.25),
  source,
};
const variation: Limit = { ...window, quantity: 'backlash-variation', max: mm(0.05) };

/** A runout read at some of the stations that were wanted. */
const turned = (tir: number | string, read: number): MeasuredResult => ({
  kind: 'runout',
  tir_mm: typeof tir === 'number' ? tir : { none: tir },
  harmonics: { none: 'no angle' },
  residual_mm: 0,
  stations: Array.from({ length: read }, (_, index) => ({ number: index + 1, value_mm: 0 })),
  missAtWorst_mm: 0,
  shape: 'unknown',
  u_mm: 0.002,
  U95_mm: 0.004,
  flags: [],
  parts: [
    { name: 'resolution', u: 0.001 },
    { name: 'noise', u: 0.0017, nu: 12 },
  ],
});
const atStations = (stations?: number): How => ({
  kind: 'streamed',
  gauge: { id: 'g', label: 'Indicator', kind: 'indicator', resolution: mm(0.001) },
  stretch: { gauge: 'g', from: 1, to: 2 },
  settings: { kind: 'runout', mode: 'stations', ...(stations === undefined ? {} : { stations }) },
});

describe('a runout held against its limit', () => {
  it('is its number with its doubt and what that is made of', () => {
    expect(values(runout, 'ring-gear-runout', turned(0.03, 0))).toEqual([
      {
        value: 0.03,
        U95: 0.004,
        parts: [
          { name: 'resolution', u: 0.001 },
          { name: 'noise', u: 0.0017, nu: 12 },
        ],
      },
    ]);
  });

  it('is not known while stations are left out, for one of them may be the worst', () => {
    expect(values(runout, 'ring-gear-runout', turned(0.03, 5), atStations(8))).toBe('5 of 8 stations read');
    expect(values(runout, 'ring-gear-runout', turned(0.03, 8), atStations(8))).toHaveLength(1);
    // Nobody said how many there were to be, or it was one turn without any.
    expect(values(runout, 'ring-gear-runout', turned(0.03, 5), atStations())).toHaveLength(1);
    expect(values(runout, 'ring-gear-runout', turned(0.03, 0), atStations(8))).toHaveLength(1);
  });

  it('that is outside already stays so whatever the stations left out would show', () => {
    expect(values(runout, 'ring-gear-runout', turned(0.08, 5), atStations(8))).toMatchObject([{ value: 0.08 }]);
  });

  it('without a number says why', () => {
    expect(values(runout, 'ring-gear-runout', turned('nothing turned', 0))).toBe('no runout: nothing turned');
  });
});

describe('a backlash held against its limits', () => {
  it('is every station for the window, and their spread for the variation, its doubt from their parts', () => {
    const result = backlash([0.18, 0.2, 0.22, 0.2]);
    const stations = values(window, 'backlash', result);
    expect(stations).toMatchObject([{ value: 0.18 }, { value: 0.2 }, { value: 0.22 }, { value: 0.2 }]);
    const spread = values(variation, 'backlash', result);
    expect(spread).toMatchObject([{ value: expect.closeTo(0.04, 12) as number }]);
    expect(typeof spread !== 'string' && (spread[0]?.U95 ?? 0)).toBeGreaterThan(0.005);
  });

  it('is not known round the gear with fewer than four stations, or one that has no number', () => {
    expect(unfinished(backlash([0.2, 0.2, 0.2]))).toBe('3 of 4 stations measured');
    expect(unfinished(backlash([0.2, 0.2, 0.2, 0.2]))).toBeUndefined();
    expect(unfinished(backlash([0.2, 'drift', 0.2, 0.2]))).toBe('station 2 has no number: drift');
    expect(values(window, 'backlash', backlash([0.2, 0.2]))).toBe('2 of 4 stations measured');
  });

  it('is outside by one station even then, but its spread is not judged before it is known', () => {
    const far = backlash([0.2, 0.4]);
    expect(values(window, 'backlash', far)).toMatchObject([{ value: 0.2 }, { value: 0.4 }]);
    expect(values(variation, 'backlash', far)).toBe('2 of 4 stations measured');
  });
});

describe('a torque held against its limit', () => {
  const torque = (more: Partial<Extract<MeasuredResult, { kind: 'torque' }>> = {}): MeasuredResult => ({
    kind: 'torque',
    basis: { basis: 'running', seal: 'out', bearings: 'new' },
    running_Nm: 1.2,
    breakaway_Nm: 2,
    breakawayU95_Nm: 0.2,
    breakawayParts: [{ name: 'gauge', u: 0.1 }],
    ripple_Nm: 0,
    drift_Nm: 0,
    average: 'whole-turns',
    turns: 3,
    u_Nm: 0.02,
    U95_Nm: 0.04,
    flags: [],
    parts: [{ name: 'turns', u: 0.02, nu: 2 }],
    ...more,
  });
  const limit = (basis: 'running' | 'starting'): Limit => ({
    quantity: 'pinion-torque',
    basis: { basis, seal: 'out', bearings: 'new' },
    max: { value: 2, unit: 'N.m' },
    source,
  });

  it('a running limit judges the running torque, a starting limit the breakaway, each with its own doubt', () => {
    expect(values(limit('running'), 'pinion-torque', torque())).toEqual([
      { value: 1.2, U95: 0.04, parts: [{ name: 'turns', u: 0.02, nu: 2 }] },
    ]);
    expect(values(limit('starting'), 'pinion-torque', torque())).toEqual([
      { value: 2, U95: 0.2, parts: [{ name: 'gauge', u: 0.1 }] },
    ]);
  });

  it('without the one asked for says why, though the other be there', () => {
    const noBreakaway = torque({ breakaway_Nm: { none: 'no rest before' } });
    expect(values(limit('starting'), 'pinion-torque', noBreakaway)).toBe('no torque: no rest before');
    expect(values(limit('running'), 'pinion-torque', noBreakaway)).toMatchObject([{ value: 1.2 }]);
  });
});
