import { describe, expect, it } from 'vitest';
import type { MakeUp } from '../../../../../src/shared/axle/makeUp.ts';
import { checkOf, checks, checksOf, needOf } from '../../../../../src/shared/job/checks/checks.ts';
import { type CheckId, checkIds, type Phase, phases } from '../../../../../src/shared/job/records/checkIds.ts';
import { makeUp } from '../../../../support/records/scenario.ts';

const axle = (more: Partial<MakeUp> = {}): MakeUp => ({ ...makeUp, ...more });
const need = (check: CheckId, phase: Phase, more: Partial<MakeUp> = {}) => needOf(checkOf(check), phase, axle(more));

describe('what is asked depends on how the axle is made', () => {
  it('a crush sleeve: new with its nut in the final assembly, and where the nut comes to rest is nobody’s figure', () => {
    for (const pinionPreload of ['crush-sleeve', 'solid-spacer'] as const) {
      const isSleeve = pinionPreload === 'crush-sleeve';
      expect(need('sleeve-new', 'final', { pinionPreload })).toBe(isSleeve ? 'required' : 'not-asked');
      expect(need('pinion-nut-torque', 'final', { pinionPreload })).toBe(isSleeve ? 'optional' : 'required');
      expect(need('sleeve-new', 'trial', { pinionPreload })).toBe('not-asked');
    }
  });

  it('threaded adjusters: marked as it comes apart, locked at the end', () => {
    for (const caseAdjustment of ['threaded-adjusters', 'outboard-shims'] as const) {
      const asked = caseAdjustment === 'threaded-adjusters' ? 'required' : 'not-asked';
      expect(need('adjusters-marked', 'stripping', { caseAdjustment })).toBe(asked);
      expect(need('adjuster-locks', 'final', { caseAdjustment })).toBe(asked);
    }
  });

  it('a used set: its own mark, runout and torque as found; what lies under its ring gear only where there is a reason', () => {
    for (const gearSet of ['used', 'new'] as const) {
      const [own, under] = gearSet === 'used' ? ['required', 'optional'] : ['optional', 'required'];
      for (const check of ['mark', 'ring-gear-runout', 'total-torque'] as const)
        expect(need(check, 'as-found', { gearSet }), check).toBe(own);
      for (const check of ['flange-runout', 'ring-gear-seat', 'ring-bolt-torque'] as const)
        expect(need(check, 'trial', { gearSet }), check).toBe(under);
    }
  });

  it('final bearings in the trials: the nut’s torque counts then, and side shims may preload the case already', () => {
    expect(need('pinion-nut-torque', 'trial', { trialBearings: 'final' })).toBe('required');
    expect(need('pinion-nut-torque', 'trial', { trialBearings: 'set-up' })).toBe('not-asked');
    expect(need('case-end-play', 'trial', { trialBearings: 'final' })).toBe('optional');
    expect(need('case-end-play', 'trial', { trialBearings: 'set-up' })).toBe('required');
    // Adjusters are brought to zero play first in any case.
    const adjusters = { caseAdjustment: 'threaded-adjusters', trialBearings: 'final' } as const;
    expect(need('case-end-play', 'trial', adjusters)).toBe('required');
  });

  it('and every axle: backlash, mark, shims and the pinion’s torque before it is called ready', () => {
    for (const phase of ['trial', 'final'] as const) {
      for (const check of ['backlash', 'mark', 'shims', 'pinion-torque', 'cap-torque'] as const)
        expect(need(check, phase), check).toBe('required');
    }
    expect(need('case-preload', 'final')).toBe('required');
    expect(need('total-torque', 'final')).toBe('required');
    expect(need('pins-and-clips', 'final')).toBe('optional');
  });

  it('asks in the order of the list, leaves out what is not asked, and says what is only asked for', () => {
    for (const phase of phases) {
      const asked = checksOf(phase, axle());
      expect(asked.map(({ id }) => id)).toEqual(checkIds.filter((id) => need(id, phase) !== 'not-asked'));
      for (const check of asked) expect(check.needed).toBe(need(check.id, phase));
    }
  });
});

describe('what serves all later trials', () => {
  it('is what another shim cannot change', () => {
    expect(checks.filter(({ carries }) => carries).map(({ id }) => id)).toEqual([
      'set-numbers',
      'flange-runout',
      'ring-gear-seat',
      'ring-bolt-torque',
      'ring-gear-runout',
    ]);
  });
});

describe('a check whose reading nobody can call good without the maker’s figure', () => {
  it('has a limit to be held against, and is a reading', () => {
    const judged = checks.filter(({ limitNeeded }) => limitNeeded);
    expect(judged.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['backlash', 'ring-gear-runout', 'flange-runout', 'pinion-torque', 'total-torque']),
    );
    for (const { limits, method } of judged) {
      expect(limits.length).toBeGreaterThan(0);
      expect(['backlash', 'runout', 'torque', 'spread']).toContain(method);
    }
    for (const { method, limits } of checks) if (method === 'confirm') expect(limits).toEqual([]);
  });
});
