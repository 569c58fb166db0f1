import { describe, expect, it } from 'vitest';
import type { MakeUp } from '../../../../../src/shared/axle/makeUp.ts';
import { checkOf, checksOf } from '../../../../../src/shared/job/checks/checks.ts';
import { judgeCheck } from '../../../../../src/shared/job/checks/judge.ts';
import { nextStep } from '../../../../../src/shared/job/checks/readiness.ts';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { makeUp } from '../../../../support/records/scenario.ts';
import { wholeNotebook } from '../../../../support/records/wholeBuild.ts';

const certified: Deed = { kind: 'certified', sha256: 'a'.repeat(64), complete: true };
const road = (heard?: 'nothing' | 'other'): Deed => ({
  kind: 'noted',
  topic: 'road-test',
  text: 'After 25 km.',
  ...(heard === undefined ? {} : { heard }),
});
const next = (...more: readonly Deed[]) =>
  nextStep(readNotebook('b1', wholeNotebook({ trials: 2, stations: 4, more }))).do;

describe('after the final assembly', () => {
  it('leads to the certificate, the road test, and the next axle or the comeback by what was heard', () => {
    expect(next()).toBe('issue-certificate');
    expect(next(certified)).toBe('road-test');
    expect(next(certified, road('nothing'))).toBe('next-axle');
    expect(next(certified, road('other'))).toBe('comeback');
    // A road test noted before it was asked what was heard says nothing against the axle.
    expect(next(certified, road())).toBe('next-axle');
  });
});

const asked = (phase: 'stripping' | 'trial' | 'final', change: Partial<MakeUp>) =>
  new Map(checksOf(phase, { ...makeUp, ...change }).map((check) => [check.id, check]));

describe('what closing asks, by make-up', () => {
  it('asks for clips only where shafts are held by them, and for a limited slip only where there is one', () => {
    expect(asked('final', {}).get('pins-and-clips')?.needed).toBe('optional');
    expect(asked('final', { shaftsHeldBy: 'clips' }).get('pins-and-clips')?.needed).toBe('required');
    expect(asked('final', {}).has('differential-works')).toBe(false);
    expect(asked('final', { differential: 'limited-slip' }).get('differential-works')?.needed).toBe('required');
    expect(asked('final', { differential: 'locker' }).get('total-torque')?.how).toContain('both shafts out');
  });

  it('counts adjusters in notches as found and for the preload, and asks side packs of nobody who has none', () => {
    const adjusters = { caseAdjustment: 'threaded-adjusters' } as const;
    expect(asked('stripping', adjusters).get('adjusters-marked')).toMatchObject({
      method: 'notches',
      needed: 'required',
    });
    expect(asked('final', adjusters).get('case-preload')?.method).toBe('notches');
    expect(asked('final', {}).get('case-preload')?.method).toBe('spread');
    expect(asked('trial', adjusters).get('shims')?.how).not.toContain('Keep the two sides apart');
    expect(asked('final', adjusters).get('adjuster-locks')?.needed).toBe('required');
  });
});

describe('a preload counted in notches', () => {
  const sheet = {
    name: 'sheet',
    rule: 'simple',
    limits: [
      { quantity: 'case-preload', min: { value: 0.15, unit: 'mm' }, max: { value: 0.25, unit: 'mm' }, source: 'sheet' },
    ],
  } as const;
  const judged = (ringSide: number, each_mm?: number) => {
    const result = {
      kind: 'notches',
      ringSide,
      oppositeSide: 1,
      ...(each_mm === undefined ? {} : { each_mm }),
    } as const;
    const build = readNotebook('b1', wholeNotebook({ trials: 1, stations: 4 }));
    const final = build.assemblies.at(-1);
    if (final === undefined) throw new Error('no assembly');
    const measurement = {
      id: 'm',
      at: build.startedAt,
      by: 'A',
      check: 'case-preload',
      how: { kind: 'seen' },
      result,
    } as const;
    return judgeCheck(checkOf('case-preload'), measurement, final, { ...sheet, limits: [...sheet.limits] });
  };

  it('is held against its limit where it is known what a notch moves, and only then', () => {
    expect(judged(1, 0.1)).toMatchObject({ standing: 'within' });
    expect(judged(3, 0.1)).toMatchObject({ standing: 'outside' });
    expect(judged(1)).toMatchObject({ standing: 'not-measured', why: 'nobody knows yet what one notch moves' });
  });
});
