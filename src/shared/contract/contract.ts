import type { z } from 'zod';
import type { Result } from '../basics/result.ts';
import { archiveQuestions, archiveTopics } from './archive.ts';
import { aboutQuestions } from './about.ts';
import { backupQuestions, backupTopics } from './backups.ts';
import { benchQuestions, benchTopics } from './bench.ts';
import { buildQuestions, buildTopics } from './builds.ts';
import { certificateQuestions, paperTopics } from './certificate.ts';
import { drawerQuestions, drawerTopics } from './drawer.ts';
import { experienceQuestions } from './experience.ts';
import { exportQuestions } from './exports.ts';
import { gaugeCheckQuestions, gaugeCheckTopics } from './gaugeChecks.ts';
import { gaugeQuestions, gaugeTopics } from './gauges.ts';
import { learnQuestions, learnTopics } from './learning.ts';
import { photoQuestions, photoTopics } from './photos.ts';
import { settingQuestions, settingTopics } from './settings.ts';
import { shopQuestions } from './shop.ts';
import { unfinishedQuestions } from './unfinished.ts';

/**
 * Everything that crosses between the bench and a renderer, over whatever transport. Written once here,
 * checked by schema on both ends; a transport only carries messages and knows nothing of their meaning.
 */
export const questions = {
  ...benchQuestions,
  ...aboutQuestions,
  ...backupQuestions,
  ...archiveQuestions,
  ...gaugeQuestions,
  ...learnQuestions,
  ...gaugeCheckQuestions,
  ...buildQuestions,
  ...unfinishedQuestions,
  ...certificateQuestions,
  ...exportQuestions,
  ...photoQuestions,
  ...drawerQuestions,
  ...settingQuestions,
  ...experienceQuestions,
  ...shopQuestions,
} as const;
export const topics = {
  ...benchTopics,
  ...backupTopics,
  ...archiveTopics,
  ...paperTopics,
  ...gaugeTopics,
  ...learnTopics,
  ...gaugeCheckTopics,
  ...buildTopics,
  ...photoTopics,
  ...drawerTopics,
  ...settingTopics,
} as const;

export type QuestionName = keyof typeof questions;
export type Ask<Name extends QuestionName> = z.infer<(typeof questions)[Name]['ask']>;
export type Answer<Name extends QuestionName> = z.infer<(typeof questions)[Name]['answer']>;

export type TopicName = keyof typeof topics;
export type News<Name extends TopicName> = z.infer<(typeof topics)[Name]>;

/** The bench as a renderer sees it, whatever carries the messages. */
export interface BenchClient {
  ask<Name extends QuestionName>(name: Name, ask: Ask<Name>): Promise<Result<Answer<Name>>>;
  /** Calls `listener` for every news on the topic; the function returned stops that. */
  hear<Name extends TopicName>(topic: Name, listener: (news: News<Name>) => void): () => void;
  /** Whether the bench can be reached right now; `listener` hears every change. */
  onPresence(listener: (present: boolean) => void): () => void;
  close(): void;
}

/** The bench as a host sees it: one handler for each question, one outlet for news. */
export type BenchAnswers = { readonly [Name in QuestionName]: (ask: Ask<Name>) => Promise<Result<Answer<Name>>> };

export interface BenchService {
  readonly answers: BenchAnswers;
  hear<Name extends TopicName>(topic: Name, listener: (news: News<Name>) => void): () => void;
  /** Takes note of a defect of the program, met at `where`: it is told on the screens, and the bench goes on. */
  readonly defect: (where: string, error: unknown) => void;
  /** Ends the bench; fails with what could not be written any more. */
  close(): Promise<Result<void>>;
}
