import type { EarlierBuild } from '../../shared/job/experience/earlier.ts';
import type { Lessons } from '../../shared/job/experience/recall.ts';
import { fail } from '../../shared/basics/result.ts';
import type { LessonNews } from './lessonMessages.ts';

/**
 * Lessons drawn so far, by the state of the notebook they came from: a notebook that was written into has another state,
 * so that nothing learnt can outlive what it was learnt from.
 */
let drawn: Lessons = new Map();

export const lessonsDrawn = (): Lessons => drawn;

const broken = {
  kind: 'not-drawn',
  sentence: 'What this build taught could not be worked out.',
  remedy: 'Open the plan again.',
};

/** Draws the lessons that are not there yet, beside the page. @returns what stops it. */
export function drawLessons(builds: readonly EarlierBuild[], hear: (lessons: Lessons) => void): () => void {
  const wanted = builds.filter(({ state }) => !drawn.has(state)).map(({ state, build }) => ({ state, build }));
  if (wanted.length === 0) {
    hear(drawn);
    return () => undefined;
  }
  const worker = new Worker(new URL('lessonWorker.ts', import.meta.url), { type: 'module' });
  const keep = (news: LessonNews): void => {
    drawn = new Map([...drawn, ...news.map(({ state, lesson }) => [state, lesson] as const)]);
    hear(drawn);
    worker.terminate();
  };
  // A worker that broke must not keep the plan waiting: its builds teach nothing.
  worker.addEventListener('error', () => keep(wanted.map(({ state }) => ({ state, lesson: fail(broken) }))));
  worker.addEventListener('message', ({ data }: MessageEvent<LessonNews>) => keep(data));
  worker.postMessage(wanted);
  return () => worker.terminate();
}
