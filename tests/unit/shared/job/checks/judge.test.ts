import { describe, expect, it } from 'vitest';
import { type CheckJudged, judgeCheck, sameBacklashBasis } from '../../../../../src/shared/job/checks/judge.ts';
import { checkOf } from '../../../../../src/shared/job/checks/checks.ts';
import type { Limit, SpecSheet } from '../../../../../src/shared/job/records/specSheet.ts';
import type { MeasuredResult } from '../../../../../src/shared/job/records/measurement.ts';
import {
  backlash,
  buildOf,
  limitsSet,
  measured,
  notebook,
  specSheet,
  trial,
} from '../../../../support/records/scenario.ts';

const mm = (value: number) => ({ value, unit: 'mm' });
const basis = { direction: 'along-rotation', at: 'heel' } as const;
const window: Limit = { quantity: 'backlash', basis, min: mm(0.2), max: mm(0.3), source: 'invented' };
const variation: Limit = { quantity: 'backlash-variation', basis, max: mm(0.05), source: 'invented' };

/** A backlash of a trial held against these limits by the shop's rule. */
function judged(result: MeasuredResult, limits: readonly Limit[], rule: SpecSheet['rule'] = 'simple'): CheckJudged {
  const build = buildOf(notebook(trial, limitsSet, measured('e1', 'backlash', result)));
  const [assembly] = build.assemblies;
  if (assembly === undefined) throw new Error('no trial');
  return judgeCheck(checkOf('backlash'), assembly.measurements[0], assembly, {
    ...specSheet,
    rule,
    limits: [...limits],
  });
}

describe('of several stations the worst is named', () => {
  it('the one furthest outside, on whichever side', () => {
    const high = judged(backlash([0.25, 0.31, 0.36, 0.25]), [window]);
    expect(high.limits[0]).toMatchObject({ verdict: 'outside', value: 0.36 });
    expect(high.limits[0]?.beyond).toBeCloseTo(0.06, 9);
    const low = judged(backlash([0.19, 0.12, 0.31, 0.25]), [window]);
    expect(low.limits[0]).toMatchObject({ verdict: 'outside', value: 0.12 });
    expect(low.limits[0]?.beyond).toBeCloseTo(-0.08, 9);
  });

  it('a close call before what is clearly within', () => {
    expect(judged(backlash([0.25, 0.298, 0.24, 0.25]), [window]).limits[0]).toMatchObject({
      verdict: 'within',
      closeCall: true,
      value: 0.298,
    });
  });
});

describe('of several limits the worst decides', () => {
  it('outside before too close to call', () => {
    // Under the guarded rule 0.298 lies too close to the window's top; the variation is plainly past its limit.
    const both = judged(backlash([0.298, 0.205, 0.25, 0.25]), [window, variation], 'guarded');
    expect(both.limits.map(({ verdict }) => verdict)).toEqual(['too-close', 'outside']);
    expect(both.standing).toBe('outside');
  });

  it('too close to call before not measured, and not measured before within', () => {
    const few = judged(backlash([0.25, 0.25]), [window]);
    expect(few.standing).toBe('not-measured');
    const tooClose = judged(backlash([0.298, 0.29, 0.29, 0.29]), [window, variation], 'guarded');
    expect(tooClose.standing).toBe('too-close');
  });
});

describe('two backlash bases are the same', () => {
  const at = (radius_mm: number) => ({ direction: 'along-rotation', at: { radius_mm } }) as const;

  it('within half a millimetre of radius', () => {
    expect(sameBacklashBasis(at(80), at(80.4))).toBe(true);
    expect(sameBacklashBasis(at(80), at(80.6))).toBe(false);
  });

  it('never across directions, nor from the heel to a radius', () => {
    expect(sameBacklashBasis(basis, { ...basis, direction: 'square-to-tooth' })).toBe(false);
    expect(sameBacklashBasis(basis, at(80))).toBe(false);
    expect(sameBacklashBasis(basis, basis)).toBe(true);
  });
});
