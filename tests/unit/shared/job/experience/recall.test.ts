import { describe, expect, it } from 'vitest';
import { earlierBuilds } from '../../../../../src/shared/job/experience/earlier.ts';
import { type Lessons, lessonOf, recall } from '../../../../../src/shared/job/experience/recall.ts';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import { finished, notebookOf, twoTrials } from '../../../../support/records/finished.ts';

const begun = notebookOf('now', {}, ...twoTrials());
const now = readNotebook(begun.id, begun.entries);
const earlier = earlierBuilds(
  now,
  ['a', 'b', 'c'].map((id) => finished(id)),
);
const lessons: Lessons = new Map(earlier.map(({ state, build }) => [state, lessonOf(build)]));

describe('what a shop recalls', () => {
  it('comes from every build that counts, and says from how many', () => {
    expect([...lessons.values()].every(({ ok }) => ok)).toBe(true);
    expect(recall(earlier, lessons, [])?.from).toBe('3 earlier builds of this axle');
    expect(recall(earlier, lessons, ['b'])?.from).toBe('2 earlier builds of this axle');
  });

  it('is the same without a build as if it had never been', () => {
    const others = earlier.filter(({ build: { id } }) => id !== 'b');
    expect(recall(earlier, lessons, ['b'])).toEqual(recall(others, lessons, []));
  });

  it('is nothing where all are left out or none has its lesson', () => {
    expect(recall(earlier, lessons, ['a', 'b', 'c'])).toBeUndefined();
    expect(recall(earlier, new Map(), [])).toBeUndefined();
  });

  it('takes no lesson from a build on which a plan could not be made', () => {
    const notebook = finished('d', { makeUp: { outerDiameter_mm: undefined } });
    const lesson = lessonOf(readNotebook(notebook.id, notebook.entries));
    expect(lesson.ok).toBe(false);
  });
});
