import type { Lesson } from '../../shared/axle/experience/lesson.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Build } from '../../shared/job/records/build.ts';

/** Builds whose lessons are wanted, each with the state of its notebook. */
export type LessonAsk = readonly { readonly state: string; readonly build: Build }[];
export type LessonNews = readonly { readonly state: string; readonly lesson: Result<Lesson> }[];
