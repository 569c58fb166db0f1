import { experienceFrom } from '../../axle/experience/experience.ts';
import { type Lesson, lessonFrom } from '../../axle/experience/lesson.ts';
import type { Experience } from '../../axle/plan/experience.ts';
import type { Result } from '../../basics/result.ts';
import { plannableOf } from '../planning/plannable.ts';
import type { Build } from '../records/build.ts';
import { type EarlierBuild, fromWords } from './earlier.ts';

/** What a finished build teaches, from everything that was read on it; a Problem says why it teaches nothing. */
export function lessonOf(build: Build): Result<Lesson> {
  const asked = plannableOf(build);
  return asked.ok ? lessonFrom(asked.value.input) : asked;
}

/** Lessons by the state of the notebook they were drawn from (`EarlierBuild.state`). */
export type Lessons = ReadonlyMap<string, Result<Lesson>>;

/** The earlier builds that count now: those that teach something and were not left out. */
export const counting = (
  earlier: readonly EarlierBuild[],
  lessons: Lessons,
  leftOut: readonly string[],
): readonly EarlierBuild[] =>
  earlier.filter(({ build, state }) => !leftOut.includes(build.id) && lessons.get(state)?.ok === true);

/** What the earlier builds that count tell the plan; nothing where none does. */
export function recall(
  earlier: readonly EarlierBuild[],
  lessons: Lessons,
  leftOut: readonly string[],
): Experience | undefined {
  const those = counting(earlier, lessons, leftOut);
  const told = those.flatMap(({ build: { id }, state, shares }) => {
    const lesson = lessons.get(state);
    return lesson?.ok === true ? [{ id, lesson: lesson.value, shares }] : [];
  });
  return experienceFrom(told, fromWords(those.map(({ shares }) => shares)));
}
