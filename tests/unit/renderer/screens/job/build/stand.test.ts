import { describe, expect, it } from 'vitest';
import { standOf } from '../../../../../../src/renderer/screens/job/build/gate.ts';
import type { MarkResult } from '../../../../../../src/shared/job/records/measurement.ts';
import type { Deed } from '../../../../../../src/shared/job/records/notebook.ts';
import { checkIds } from '../../../../../../src/shared/job/records/checkIds.ts';
import { readinessOf } from '../../../../../../src/shared/job/checks/readiness.ts';
import {
  asFound,
  backlash,
  buildOf,
  described,
  limitsSet,
  makeUp,
  measured,
  notebook,
  trial,
} from '../../../../../support/records/scenario.ts';
import { lowAndToe, markOf } from '../../../../../support/records/trials.ts';

const letThrough: readonly Deed[] = checkIds
  .filter((check) => check !== 'mark')
  .map((check) => ({ kind: 'overridden', assembly: 'e3', check, reason: 'on the paper sheet' }));

const stand = (...deeds: readonly Deed[]) => standIn(trial, ...deeds);

function standIn(phase: Deed, ...deeds: readonly Deed[]) {
  const build = buildOf(notebook(described, limitsSet, phase, ...deeds));
  const [assembly] = build.assemblies;
  if (assembly === undefined) throw new Error('nothing was assembled');
  return standOf(assembly, readinessOf({ ...build, makeUp }, assembly));
}

const markSaid = (judgement: MarkResult['judgement']): Deed => markOf('e3', { ...lowAndToe, judgement });

describe('where a trial stands', () => {
  it('is what keeps it from being painted, then that it is ready', () => {
    expect(stand().title).toMatch(/^\d+ things stand in the way of painting$/u);
    // It is ready, and not by its readings: that is never the full disc.
    expect(stand(...letThrough)).toEqual({ title: 'Ready to paint, 12 overridden', shape: 'overridden' });
  });

  it.each([
    ['accepted', 'The mark is accepted', 'within'],
    ['change', 'The mark asks for a change', 'outside'],
    ['recorded', 'The mark is recorded', 'recorded'],
  ] as const)('is what the mark said once it was painted: %s', (judgement, title, shape) => {
    expect(stand(...letThrough, markSaid(judgement))).toEqual({ title, shape });
  });

  it('is still what stands in the way where the teeth were painted too early', () => {
    expect(stand(markSaid('accepted')).title).toContain('in the way of painting');
  });
});

describe('where an axle stands as found', () => {
  it('is recorded, which is no verdict: a loose case and a backlash outside have no full disc above them', () => {
    const loose = measured('e3', 'case-tight', { kind: 'confirmed', yes: false });
    expect(standIn(asFound, loose, measured('e3', 'backlash', backlash([0.3, 0.31, 0.32, 0.3])))).toEqual({
      title: 'As found is complete',
      shape: 'recorded',
    });
  });
});
