import { describe, expect, it } from 'vitest';
import { earlierBuilds, fromWords } from '../../../../../src/shared/job/experience/earlier.ts';
import { withBuild } from '../../../../../src/shared/job/experience/leftOut.ts';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import type { Deed, Notebook } from '../../../../../src/shared/job/records/notebook.ts';
import { certified, finished, notebookOf, twoTrials } from '../../../../support/records/finished.ts';
import { backlashOf, markOf, right } from '../../../../support/records/trials.ts';

const now = (about = {}) => {
  const notebook = notebookOf('now', about, ...twoTrials(about));
  return readNotebook(notebook.id, notebook.entries);
};
const found = (...notebooks: readonly Notebook[]): readonly string[] =>
  earlierBuilds(now(), notebooks).map(({ build: { id } }) => id);
const sharesWith = (about: object) => earlierBuilds(now(), [finished('before', about)])[0]?.shares;

describe('earlier builds', () => {
  it('are the finished ones, newest first, and never the one on the stand', () => {
    const going = notebookOf('going', {}, ...twoTrials());
    expect(found(finished('old'), going, finished('new', { month: 2 }), finished('now'))).toEqual(['new', 'old']);
  });

  it('fall out when they are altered, struck or certified no more, and come back when certified again', () => {
    const after = (...deeds: readonly Deed[]) => notebookOf('b', {}, ...twoTrials(), certified, ...deeds);
    const struck = (entry: string): Deed => ({ kind: 'struck', entry });
    expect(found(after({ kind: 'noted', topic: 'road-test', text: 'Quiet at all speeds.' }))).toEqual(['b']);
    expect(found(after(backlashOf('e7', 0.3)))).toEqual([]);
    expect(found(after(struck('e9')))).toEqual([]);
    expect(found(after(struck('e11')))).toEqual([]);
    expect(found(after(backlashOf('e7', 0.3), certified))).toEqual(['b']);
    // A strike that was itself struck leaves the build as it was certified.
    expect(found(after(struck('e9'), struck('e12')))).toEqual(['b']);
  });

  it('teach nothing where the last mark was not accepted', () => {
    expect(found(notebookOf('b', {}, ...twoTrials(), markOf('e7', right), certified))).toEqual([]);
  });

  it('count for what they have in common: hand and compound, axle and maker, axle', () => {
    expect(sharesWith({})).toEqual({ hand: true, relief: true, backlash: true });
    expect(sharesWith({ technician: 'B. Tester' })).toEqual({ hand: false, relief: true, backlash: true });
    expect(sharesWith({ technician: ' a.  TESTER ' })).toMatchObject({ hand: true });
    expect(sharesWith({ compound: 'Yellow' })).toMatchObject({ hand: false });
    expect(sharesWith({ makeUp: { gearMaker: 'Maker A' } })).toEqual({ hand: true, relief: false, backlash: true });
    expect(sharesWith({ makeUp: { outerDiameter_mm: 206 } })).toMatchObject({ relief: true });
    expect(sharesWith({ makeUp: { ringTeeth: 43 } })).toEqual({ hand: true, relief: false, backlash: false });
    expect(sharesWith({ makeUp: { driveFlank: 'concave' } })).toMatchObject({ relief: false, backlash: false });
    expect(sharesWith({ technician: 'B. Tester', makeUp: { ringTeeth: 43 } })).toBeUndefined();
  });

  it('are other axles where both have a name and the names differ', () => {
    const named = (axleName: string) => ({ makeUp: { axleName } });
    const shares = (mine: object, its: object) => earlierBuilds(now(mine), [finished('b', its)])[0]?.shares.backlash;
    expect(shares(named('Axle A'), named('axle a'))).toBe(true);
    expect(shares(named('Axle A'), named('Axle B'))).toBe(false);
    expect(shares(named('Axle A'), {})).toBe(true);
  });

  it('has another state with everything that is written into it', () => {
    const state = (notebook: Notebook) => earlierBuilds(now(), [notebook])[0]?.state;
    const noted: Deed = { kind: 'noted', topic: 'note', text: 'Came back for oil.' };
    const before = finished('b');
    expect(state(notebookOf('b', {}, ...twoTrials(), certified, noted))).not.toBe(state(before));
  });

  it('says how many there are, and of what', () => {
    const axle = { hand: false, relief: true, backlash: true };
    const hand = { hand: true, relief: false, backlash: false };
    expect(fromWords([axle])).toBe('1 earlier build of this axle');
    expect(fromWords([axle, axle, hand])).toBe('3 earlier builds: 2 of this axle, 1 by the same hand on other axles');
    expect(fromWords([hand, hand])).toBe('2 earlier builds by the same hand on other axles');
  });

  it('are left out once, however often it is said, and taken in again', () => {
    expect(withBuild(withBuild([], 'a', false), 'a', false)).toEqual(['a']);
    expect(withBuild(['a', 'b'], 'a', true)).toEqual(['b']);
  });
});
