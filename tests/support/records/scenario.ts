import { combine } from '../../../src/shared/measuring/uncertainty/uncertainty.ts';
import type { Build } from '../../../src/shared/job/records/build.ts';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import type { MakeUp } from '../../../src/shared/axle/makeUp.ts';
import type { BacklashResult, How, MeasuredResult } from '../../../src/shared/job/records/measurement.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import type { SpecSheet } from '../../../src/shared/job/records/specSheet.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';

/** An axle of our own with round dimensions; invented, like every figure in this file. */
export const makeUp: MakeUp = {
  pinionTeeth: 13,
  ringTeeth: 45,
  outerDiameter_mm: 205,
  gearSet: 'new',
  cut: 'face-milled',
  driveFlank: 'convex',
  caseAdjustment: 'outboard-shims',
  pinionMount: 'integral',
  pinionPreload: 'crush-sleeve',
  depthShimPlace: 'under-head-bearing',
  trialBearings: 'set-up',
};

const heel = { direction: 'along-rotation', at: 'heel' } as const;
export const backlashBasis = heel;
const mm = (value: number) => ({ value, unit: 'mm' });
const source = 'shop sheet for the invented axle';

export const specSheet: SpecSheet = {
  name: 'Invented axle, 205 mm ring gear',
  rule: 'simple',
  limits: [
    { quantity: 'backlash', basis: heel, min: mm(0.15), max: mm(0.25), source },
    { quantity: 'backlash-variation', basis: heel, max: mm(0.05), source },
    { quantity: 'ring-gear-runout', max: mm(0.08), source },
    { quantity: 'flange-runout', max: mm(0.05), source },
    {
      quantity: 'pinion-torque',
      basis: { basis: 'running', seal: 'out', bearings: 'set-up' },
      min: { value: 0.3, unit: 'N.m' },
      max: { value: 1, unit: 'N.m' },
      source,
    },
  ],
};

export const byHand: How = { kind: 'typed', tool: 'micrometer', resolution: mm(0.01) };
export const seen: How = { kind: 'seen' };

/** A notebook written entry by entry, with ids and times that count up. */
export function notebook(...deeds: readonly Deed[]): Entry[] {
  const start: Deed = { kind: 'started', title: 'Test build', technician: 'A. Tester' };
  return [start, ...deeds].map((deed, index) => ({
    id: `e${index}`,
    version: 1,
    at: new Date(Date.UTC(2026, 0, 5, 8, index)).toISOString(),
    by: 'A. Tester',
    deed,
  }));
}

export const buildOf = (entries: readonly Entry[]): Build => readNotebook('b1', entries);

export const described: Deed = { kind: 'described', makeUp };
export const limitsSet: Deed = { kind: 'limits-set', specSheet };
export const trial: Deed = {
  kind: 'assembled',
  assembly: { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false },
};
export const asFound: Deed = {
  kind: 'assembled',
  assembly: { phase: 'as-found', bearings: 'used', seal: 'in', sleeve: true },
};
export const stripping: Deed = {
  kind: 'assembled',
  assembly: { phase: 'stripping', bearings: 'used', seal: 'in', sleeve: true },
};
export const final: Deed = {
  kind: 'assembled',
  assembly: { phase: 'final', bearings: 'new', seal: 'in', sleeve: true },
};

export const measured = (assembly: string, check: CheckId, result: MeasuredResult, how: How = seen): Deed => ({
  kind: 'measured',
  assembly,
  check,
  how,
  result,
});

/** A backlash round the gear with one value for each station; `U95` is the same at all. */
export function backlash(values: readonly (number | string)[], U95 = 0.006): BacklashResult {
  const u = U95 / combine([{ name: 'resolution', u: 1 }]).U95;
  const numbers = values.filter((value) => typeof value === 'number');
  const orNone = (value: number) => (numbers.length === values.length ? value : { none: 'a station has no number' });
  return {
    kind: 'backlash',
    basis: heel,
    stations: values.map((value, index) => ({
      number: index + 1,
      value_mm: typeof value === 'number' ? value : { none: value },
      rocks: 4,
      sd_mm: 0.002,
      u_mm: u,
      U95_mm: U95,
      flags: [],
      parts: [{ name: 'resolution', u }],
    })),
    mean_mm: orNone(numbers.reduce((sum, value) => sum + value, 0) / Math.max(1, numbers.length)),
    min_mm: orNone(Math.min(...numbers)),
    max_mm: orNone(Math.max(...numbers)),
    variation_mm: orNone(Math.max(...numbers) - Math.min(...numbers)),
  };
}
