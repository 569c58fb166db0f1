import { type Cause, causes, type Earlier, type Shares } from '../../../../../src/shared/axle/experience/alike.ts';
import { type Lesson, lessonAt } from '../../../../../src/shared/axle/experience/lesson.ts';

/** A build that says of every unknown where it lies, with this standard uncertainty (standard units of the plain prior). */
export function lesson(values: readonly number[], unsure = 0.3): Lesson {
  const size = lessonAt.length;
  const sharp = 1 / unsure ** 2;
  return {
    information: Array.from({ length: size * size }, (_, k) => (k % (size + 1) === 0 ? sharp : 0)),
    pull: Array.from({ length: size }, (_, k) => sharp * (values[k] ?? 0)),
  };
}

export const sharing = (...shared: readonly Cause[]): Shares => ({
  hand: shared.includes('hand'),
  relief: shared.includes('relief'),
  backlash: shared.includes('backlash'),
});
export const sharesAll: Shares = sharing(...causes);

/** Builds whose every unknown lies at these values, one after the other. */
export const builds = (values: readonly number[], shares = sharesAll): readonly Earlier[] =>
  values.map((value, n) => ({ id: `b${n}`, lesson: lesson(lessonAt.map(() => value)), shares }));
