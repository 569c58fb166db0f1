import { z } from 'zod';
import { idSchema } from '../basics/recorded.ts';
import { notebookSchema } from '../job/records/notebook.ts';
import { question } from './message.ts';

export const experienceQuestions = {
  /** Notebooks of the finished builds that have something in common with this one. */
  'experience.read': question(z.strictObject({ build: idSchema }), z.array(notebookSchema)),
} as const;
