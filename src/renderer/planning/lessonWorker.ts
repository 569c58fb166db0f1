// A build's lesson takes some 40 ms to draw, and a shop has many: it is done here, beside the page.
import { lessonOf } from '../../shared/job/experience/recall.ts';
import type { LessonAsk, LessonNews } from './lessonMessages.ts';

addEventListener('message', ({ data }: MessageEvent<LessonAsk>) => {
  const news: LessonNews = data.map(({ state, build }) => ({ state, lesson: lessonOf(build) }));
  postMessage(news);
});
