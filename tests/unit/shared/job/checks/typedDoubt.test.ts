import { describe, expect, it } from 'vitest';
import { t95 } from '../../../../../src/shared/basics/studentT.ts';
import { valuesFor } from '../../../../../src/shared/job/checks/valuesJudged.ts';
import type { CheckId } from '../../../../../src/shared/job/records/checkIds.ts';
import { limitSchema } from '../../../../../src/shared/job/records/specSheet.ts';
import {
  buildOf,
  byHand,
  described,
  limitsSet,
  measured,
  notebook,
  trial,
} from '../../../../support/records/scenario.ts';

/** The doubt of one number typed for a check, held against a limit of that quantity. */
function doubtOf(check: CheckId, unit: 'mm' | 'N.m', resolution: number): number {
  const typed = { ...byHand, resolution: { value: resolution, unit } };
  const deed = measured('e3', check, { kind: 'quantity', value: { value: 0.1, unit } }, typed);
  const assembly = buildOf(notebook(described, limitsSet, trial, deed)).assemblies.at(-1);
  const measurement = assembly?.measurements.find((one) => one.check === check);
  if (assembly === undefined || measurement === undefined) throw new Error('not measured');
  const limit = limitSchema.parse({ quantity: check, max: { value: 1, unit }, source: 'the manual' });
  const values = valuesFor(limit, measurement, assembly);
  return typeof values === 'string' ? Number.NaN : (values[0]?.U95 ?? Number.NaN);
}

const fully = t95(Infinity);

describe('a number read off a tool', () => {
  it('is rounded twice where it is a play: the reading, and the one it was zeroed at', () => {
    expect(doubtOf('case-end-play', 'mm', 0.01)).toBeCloseTo((fully * 0.01) / Math.sqrt(6), 9);
  });

  it('is rounded once where it is a torque', () => {
    expect(doubtOf('cap-torque', 'N.m', 2)).toBeCloseTo((fully * 2) / Math.sqrt(12), 9);
  });
});
