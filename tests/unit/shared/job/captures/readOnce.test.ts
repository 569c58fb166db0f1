import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { t95 } from '../../../../../src/shared/basics/studentT.ts';
import { backlashReadOnce, runoutReadOnce, torqueReadOnce } from '../../../../../src/shared/job/captures/readOnce.ts';
import { figuresAgainst } from '../../../../../src/shared/job/certifying/figuresAgree.ts';
import { backlashOf } from '../../../../../src/shared/job/planning/seen.ts';
import { checkOf } from '../../../../../src/shared/job/checks/checks.ts';
import { judgeCheck } from '../../../../../src/shared/job/checks/judge.ts';
import type { CheckId } from '../../../../../src/shared/job/records/checkIds.ts';
import { type How, type MeasuredResult, resultSchema } from '../../../../../src/shared/job/records/measurement.ts';
import { resultBrief } from '../../../../../src/shared/presentation/words/results.ts';
import {
  backlashBasis as basis,
  buildOf,
  described,
  limitsSet,
  makeUp,
  measured,
  notebook,
  specSheet,
  trial,
} from '../../../../support/records/scenario.ts';

const byDial: How = { kind: 'typed', tool: 'Dial indicator', resolution: { value: 0.01, unit: 'mm' } };
const running = { basis: 'running', seal: 'out', bearings: 'set-up' } as const;
const starting = { ...running, basis: 'starting' } as const;
const fully = t95(Infinity);

/** How a typed result of the first trial stands: window 0.15 to 0.25, variation 0.05, ring gear 0.08 mm, pinion 0.3 to 1 N·m. */
function judged(check: CheckId, result: MeasuredResult) {
  const deed = measured('e3', check, result, byDial);
  const assembly = buildOf(notebook(described, limitsSet, trial, deed)).assemblies.at(-1);
  if (assembly === undefined) throw new Error('no assembly');
  return judgeCheck(checkOf(check, makeUp), assembly.measurements.at(-1), assembly, specSheet);
}

const backlash = (...values: readonly (number | undefined)[]) => backlashReadOnce({ values, basis, step: 0.01 });

describe('a backlash read once at each station', () => {
  it('has its numbers, no rocks, and the rounding of two readings as its doubt', () => {
    const result = backlash(0.2, 0.21, 0.22, 0.19);
    expect(result).toMatchObject({ min_mm: 0.19, max_mm: 0.22, basis });
    expect(result.mean_mm).toBeCloseTo(0.205, 12);
    expect(result.variation_mm).toBeCloseTo(0.03, 12);
    for (const station of result.stations) {
      expect(station).toMatchObject({ rocks: 0, flags: ['read-once'], sd_mm: { none: 'not-measured' } });
      expect(station).not.toHaveProperty('each_mm');
      expect(station.U95_mm).toBeCloseTo((fully * 0.01) / Math.sqrt(6), 9);
    }
    // Four roundings of their own, averaged.
    expect(result.meanU95_mm).toBeCloseTo((fully * 0.01) / Math.sqrt(6) / 2, 9);
  });

  it('is judged station by station like any other', () => {
    expect(judged('backlash', backlash(0.2, 0.21, 0.22, 0.19)).standing).toBe('within');
    const out = judged('backlash', backlash(0.2, 0.21, 0.28, 0.24));
    expect(out.standing).toBe('outside');
    expect(out.limits.find(({ quantity }) => quantity === 'backlash')).toMatchObject({ value: 0.28 });
    // A step of the dial from the end of the window: it warns, and a finer tool is what would settle it.
    expect(judged('backlash', backlash(0.22, 0.23, 0.245, 0.22))).toMatchObject({
      standing: 'within',
      closeCall: true,
    });
  });

  it('keeps the place of a station that was left out, and is not measured round the gear until it is read', () => {
    const result = backlash(0.2, undefined, 0.22, 0.19);
    expect(result.stations.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
    expect(judged('backlash', result)).toMatchObject({
      standing: 'not-measured',
      why: 'station 2 has no number: not measured',
    });
    expect(judged('backlash', backlash(0.2, undefined, 0.29, 0.19)).standing).toBe('outside');
    // The plan goes by the stations that were read.
    expect(backlashOf(result)).toMatchObject({ min_mm: 0.19, max_mm: 0.22, U95_mm: expect.closeTo(0.008, 4) });
    expect(judged('backlash', backlash(0.2, 0.2, 0.2)).why).toBe('3 of 4 stations measured');
  });
});

describe('a runout and a torque read once', () => {
  it('are held against their limits', () => {
    expect(judged('ring-gear-runout', runoutReadOnce(0.05, 0.01)).standing).toBe('within');
    expect(judged('ring-gear-runout', runoutReadOnce(0.12, 0.01)).standing).toBe('outside');
    expect(judged('pinion-torque', torqueReadOnce(0.7, running, 0.1)).standing).toBe('within');
    expect(judged('pinion-torque', torqueReadOnce(1.4, running, 0.1)).standing).toBe('outside');
  });

  it('say nothing of the torque that was not read', () => {
    const result = torqueReadOnce(1.4, starting, 0.1);
    expect(result).toMatchObject({ running_Nm: { none: 'not-measured' }, breakaway_Nm: 1.4, average: 'read-once' });
    // Rounded once: the step over √12.
    expect(result.breakawayU95_Nm).toBeCloseTo((fully * 0.1) / Math.sqrt(12), 9);
    expect(judged('pinion-torque', result)).toMatchObject({ standing: 'recorded' });
    expect(resultBrief(result, 'metric')).toBe('1.40 N·m');
    expect(resultBrief(torqueReadOnce(1.4, running, 0.1), 'metric')).toBe('1.40 N·m');
  });
});

it('is a record the notebook takes and whose figures follow from each other, whatever was read', () => {
  const number = fc.double({ min: 0, max: 2, noNaN: true });
  const step = fc.double({ min: 0.0001, max: 0.2, noNaN: true });
  const results = fc.oneof(
    fc
      .tuple(fc.array(fc.option(number, { nil: undefined, freq: 5 }), { minLength: 1, maxLength: 12 }), step)
      .map(([values, by]) => backlashReadOnce({ values, basis, step: by })),
    fc.tuple(number, step).map(([tir, by]) => runoutReadOnce(tir, by)),
    fc
      .tuple(number, fc.constantFrom(running, starting), step)
      .map(([value, of, by]) => torqueReadOnce(30 * value, of, by)),
  );
  fc.assert(
    fc.property(results, (result) => {
      expect(resultSchema.parse(JSON.parse(JSON.stringify(result)))).toEqual(result);
      expect(figuresAgainst(result)).toBeUndefined();
    }),
  );
});
