import { expect, it } from 'vitest';
import { firstAnswer, firstWord } from '../../../../../../src/renderer/screens/checks/mark/firstWord.ts';
import type { Deed } from '../../../../../../src/shared/job/records/notebook.ts';
import { asFound, buildOf, makeUp, measured, notebook, trial } from '../../../../../support/records/scenario.ts';
import { markAt } from '../../../../shared/axle/mark/marks.ts';

const own = markAt(0.05, 0.3);
const usedSet: Deed = { kind: 'described', makeUp: { ...makeUp, gearSet: 'used' } };
// As found is the entry after the start and the description.
const painted = measured('e2', 'mark', { kind: 'mark', drive: own, coast: own, judgement: 'recorded' });
const atPlace = (crown: number) => ({ drive: markAt(0.05, crown), coast: undefined });

it('holds the mark of a set that has run beside its own, not beside the middle of the tooth', () => {
  const build = buildOf(notebook(usedSet, asFound, painted, trial));
  const [, now] = build.assemblies;
  if (now === undefined) throw new Error('no trial');
  expect(firstWord(build, atPlace(0.3))).toMatch(/at the height where this set ran/u);
  expect(firstAnswer(build, now, atPlace(0.3))).toContain('Accept it');
  expect(firstWord(build, atPlace(0))).toMatch(/lower than where this set ran/u);
  expect(firstAnswer(build, now, atPlace(0))).toContain('Change shims');
});

it('says nothing before the drive mark is drawn, and no answer as found', () => {
  const build = buildOf(notebook({ kind: 'described', makeUp }, asFound));
  const [found] = build.assemblies;
  if (found === undefined) throw new Error('no as found');
  expect(firstWord(build, { drive: undefined, coast: markAt(0, 0) })).toBe('');
  expect(firstAnswer(build, found, atPlace(0))).toBe('');
});
