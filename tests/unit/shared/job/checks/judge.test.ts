import { describe, expect, it } from 'vitest';
import {
  basisWords,
  type CheckJudged,
  judgeCheck,
  sameBacklashBasis,
  torqueMismatch,
} from '../../../../../src/shared/job/checks/judge.ts';
import { checkOf } from '../../../../../src/shared/job/checks/checks.ts';
import type { CheckId } from '../../../../../src/shared/job/records/checkIds.ts';
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

/** Any result of a trial held against limits. */
function judgedAs(check: CheckId, result: MeasuredResult | undefined, limits: readonly Limit[] = []): CheckJudged {
  const build = buildOf(notebook(trial, ...(result === undefined ? [] : [measured('e1', check, result)])));
  const [assembly] = build.assemblies;
  if (assembly === undefined) throw new Error('no trial');
  return judgeCheck(checkOf(check), assembly.measurements[0], assembly, { ...specSheet, limits: [...limits] });
}

describe('what is seen and not measured', () => {
  const mark = (judgement: 'recorded' | 'accepted' | 'change'): MeasuredResult => ({
    kind: 'mark',
    drive: { none: 'not drawn' },
    coast: { none: 'not drawn' },
    judgement,
  });

  it('a mark is recorded, and stands in the way only where it asks for another shim', () => {
    expect(judgedAs('mark', mark('recorded'))).toMatchObject({ standing: 'recorded' });
    expect(judgedAs('mark', mark('accepted'))).toMatchObject({ standing: 'recorded' });
    expect(judgedAs('mark', mark('change'))).toMatchObject({
      standing: 'outside',
      why: 'The mark asks for another shim.',
    });
  });

  it('set numbers are one set where both are the same', () => {
    const numbers = (pinion: string, ringGear: string): MeasuredResult => ({ kind: 'set-numbers', pinion, ringGear });
    expect(judgedAs('set-numbers', numbers('417', '417'))).toMatchObject({ standing: 'within' });
    expect(judgedAs('set-numbers', numbers('417', '471'))).toMatchObject({
      standing: 'outside',
      why: expect.stringContaining('differ') as string,
    });
  });

  it('a question answered with no says what was noted, or that it was no', () => {
    expect(judgedAs('oil', { kind: 'confirmed', yes: true })).toEqual({
      standing: 'within',
      limits: [],
      closeCall: false,
    });
    expect(judgedAs('oil', { kind: 'confirmed', yes: false })).toMatchObject({
      standing: 'outside',
      why: 'Answered with no.',
    });
    expect(judgedAs('oil', { kind: 'confirmed', yes: false, note: 'waits for additive' }).why).toBe(
      'waits for additive',
    );
  });

  it('shims are recorded and judged by nothing', () => {
    expect(judgedAs('shims', { kind: 'shims', packs: [] })).toEqual({
      standing: 'recorded',
      limits: [],
      closeCall: false,
    });
  });
});

describe('where there is nothing to judge', () => {
  it('nothing measured names the limits that wait for it', () => {
    const nothing = judgedAs('backlash', undefined, [
      window,
      { quantity: 'ring-gear-runout', max: mm(1), source: 'x' },
    ]);
    expect(nothing.standing).toBe('not-measured');
    expect(nothing.limits).toMatchObject([{ quantity: 'backlash', verdict: 'not-measured', why: 'not measured yet' }]);
  });

  it('a backlash without a limit is not called recorded before it is known round the gear', () => {
    expect(judgedAs('backlash', backlash([0.2, 0.2]))).toMatchObject({
      standing: 'not-measured',
      why: '2 of 4 stations measured',
    });
    expect(judgedAs('backlash', backlash([0.2, 0.2, 0.2, 0.2]))).toMatchObject({ standing: 'no-limit' });
  });

  it('a limit of another basis is named with both, and judges nothing', () => {
    const radius: Limit = { ...window, basis: { direction: 'along-rotation', at: { radius_mm: 90 } } };
    expect(judgedAs('backlash', backlash([0.2, 0.2, 0.2, 0.2]), [radius])).toMatchObject({
      standing: 'no-limit',
      why: 'the limit is felt along the turn at 90 mm radius, this reading along the turn at the heel: convert one of them first',
    });
    // Beside one that can be judged it drops out of sight.
    const both = judgedAs('backlash', backlash([0.2, 0.4, 0.2, 0.2]), [radius, window]);
    expect(both).toMatchObject({ standing: 'outside', limits: [{ value: 0.4 }] });
    expect(both.limits).toHaveLength(1);
  });
});

describe('torques are compared only with their like', () => {
  const basis = { basis: 'running', seal: 'out', bearings: 'new' } as const;
  it.each([
    [{ ...basis }, undefined],
    [{ ...basis, basis: 'starting' as const }, 'the limit is a running torque, this reading a starting one'],
    [{ ...basis, seal: 'in' as const }, 'the limit is with the seal out, this reading with the seal in'],
    [{ ...basis, bearings: 'used' as const }, 'the limit is for new bearings, this reading for used ones'],
  ])('%o', (reading, why) => {
    expect(torqueMismatch(basis, reading)).toBe(why);
  });
});

describe('a feeler', () => {
  const seat: Limit = { quantity: 'ring-gear-seat', max: mm(0.04), source: 'invented' };
  const offered = (thickness: number, entered: boolean, limit: Limit = seat) =>
    judgedAs('ring-gear-seat', { kind: 'feeler', thickness: mm(thickness), entered, places: 4 }, [limit]);

  it('decides only on its own side of the limit', () => {
    expect(offered(0.03, false)).toMatchObject({ standing: 'within', limits: [{ value: 0.03, U95: 0 }] });
    expect(offered(0.05, true).standing).toBe('outside');
    expect(offered(0.05, false)).toMatchObject({
      standing: 'not-measured',
      why: 'this feeler cannot tell: use the thickness of the limit',
    });
    expect(offered(0.03, true).standing).toBe('not-measured');
  });
});

describe('two backlash bases are the same', () => {
  const at = (radius_mm: number) => ({ direction: 'along-rotation', at: { radius_mm } }) as const;

  it('within half a millimetre of radius', () => {
    expect(sameBacklashBasis(at(80), at(80.4))).toBe(true);
    expect(sameBacklashBasis(at(80), at(80.6))).toBe(false);
  });

  it('said as a technician says them', () => {
    expect(basisWords(basis)).toBe('along the turn at the heel');
    expect(basisWords({ direction: 'square-to-tooth', at: { radius_mm: 80 } })).toBe(
      'square to the tooth at 80 mm radius',
    );
    expect(sameBacklashBasis(at(80), at(79.4))).toBe(false);
    expect(sameBacklashBasis(at(80), at(80.5))).toBe(false);
  });

  it('never across directions, nor from the heel to a radius', () => {
    expect(sameBacklashBasis(basis, { ...basis, direction: 'square-to-tooth' })).toBe(false);
    expect(sameBacklashBasis(basis, at(80))).toBe(false);
    expect(sameBacklashBasis(basis, basis)).toBe(true);
  });
});
