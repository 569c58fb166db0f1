import { expect, test } from 'vitest';
import { cutLearnt } from '../../../../../src/shared/job/experience/cutLearnt.ts';
import { earlierBuilds } from '../../../../../src/shared/job/experience/earlier.ts';
import type { MakeUp } from '../../../../../src/shared/axle/makeUp.ts';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import { finished, notebookOf, twoTrials } from '../../../../support/records/finished.ts';

const withCut = (cut: MakeUp['cut']) => ({ makeUp: { cut } });
const nowWith = (cut: MakeUp['cut']) => {
  const notebook = notebookOf('now', {}, ...twoTrials(withCut(cut)));
  return readNotebook(notebook.id, notebook.entries);
};
const learnt = (cuts: readonly MakeUp['cut'][], cut: MakeUp['cut'] = 'not-known', leftOut: readonly string[] = []) => {
  const now = nowWith(cut);
  const before = cuts.map((one, n) => finished(`b${n}`, withCut(one)));
  return cutLearnt(now, earlierBuilds(now, before), leftOut);
};

test('two builds that agree tell the cut, and the plan says where it has it from', () => {
  const answer = learnt(['face-hobbed', 'not-known', 'face-hobbed']);
  expect(answer?.build.makeUp.cut).toBe('face-hobbed');
  expect(answer?.note).toBe('The cut is not known here and is taken from 2 earlier builds of this axle: face-hobbed.');
});

test('nothing is taken where the cut is known, one build alone says it, or builds disagree', () => {
  expect(learnt(['face-hobbed', 'face-hobbed'], 'face-hobbed')).toBeUndefined();
  expect(learnt(['face-hobbed'])).toBeUndefined();
  expect(learnt(['face-hobbed', 'face-hobbed', 'face-milled'])).toBeUndefined();
  expect(learnt(['face-hobbed', 'face-hobbed'], 'not-known', ['b1'])).toBeUndefined();
});
