import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { fail, type Problem, type Result } from '../../shared/basics/result.ts';
import type { TakenIn } from '../exports/takeIn.ts';
import type { FoundBuilds } from './find.ts';
import type { Standing, ThreadAsked, WordFromThread, WordToThread } from './threadWords.ts';

/** The thread's program: beside this file as it is written, beside the bench's own program where it is built. */
function program(): string {
  const here = import.meta.dirname;
  const places = ['archiveWorker.ts', 'archiveWorker.js', join('..', 'archiveWorker.js')].map((name) =>
    join(here, name),
  );
  return places.find((place) => existsSync(place)) ?? join(here, 'archiveWorker.ts');
}

/** Asks an archive whether it would take what this bench sends, in a thread of its own. */
export async function testApart(asked: Omit<ThreadAsked, 'onlyTest'>): Promise<Result<string>> {
  const worker = new Worker(program(), { workerData: { ...asked, onlyTest: true } });
  const done = Promise.withResolvers<Result<string>>();
  worker.on('message', (word: WordFromThread) => 'tested' in word && done.resolve(word.tested));
  worker.on('error', (error) => done.resolve(fail(ended(String(error)))));
  worker.on('exit', () => done.resolve(fail(ended('its thread ended'))));
  return done.promise;
}

/** The archive's thread while an archive is chosen. */
export interface ArchiveThread {
  poke(): void;
  find(words: string, limit: number): Promise<Result<FoundBuilds>>;
  fetch(build: string): Promise<Result<TakenIn>>;
  /** Waits for the load that is on its way, for a second; then it is given up, and goes again with the next start. */
  close(): Promise<void>;
}

interface Hearing {
  readonly onStanding: (standing: Standing) => void;
  readonly onNews: (builds: readonly string[]) => void;
  /** It cannot go on, or never began. */
  readonly onProblem: (problem: Problem) => void;
}

const endTakes_ms = 1500;

export function openThread(
  asked: Omit<ThreadAsked, 'onlyTest'>,
  { onStanding, onNews, onProblem }: Hearing,
): ArchiveThread {
  const worker = new Worker(program(), { workerData: { ...asked, onlyTest: false } });
  const waiting = new Map<number, (answer: Result<never>) => void>();
  const exited = Promise.withResolvers<void>();
  let [next, isEnding, why] = [0, false, 'its thread ended'];
  const say = (word: WordToThread): void => worker.postMessage(word);
  const asking = <T>(word: (ask: number) => WordToThread): Promise<Result<T>> => {
    const { promise, resolve } = Promise.withResolvers<Result<T>>();
    next += 1;
    waiting.set(next, resolve);
    say(word(next));
    return promise;
  };
  const answer = (ask: number, result: Result<unknown>): void => {
    waiting.get(ask)?.(result as Result<never>);
    waiting.delete(ask);
  };
  worker.on('message', (word: WordFromThread) => {
    if ('standing' in word) onStanding(word.standing);
    else if ('news' in word) onNews(word.news);
    else if ('found' in word) answer(word.ask, word.found);
    else if ('fetched' in word) answer(word.ask, word.fetched);
    else if (!word.tested.ok) onProblem(word.tested.problem);
  });
  worker.on('error', (error) => (why = String(error)));
  worker.on('exit', () => {
    for (const ask of waiting.keys()) answer(ask, fail(ended(why)));
    if (!isEnding && why !== 'its thread ended') onProblem(ended(why));
    exited.resolve();
  });
  return {
    poke: () => say({ poke: true }),
    find: (words, limit) => asking((ask) => ({ ask, find: words, limit })),
    fetch: (build) => asking((ask) => ({ ask, fetch: build })),
    async close() {
      isEnding = true;
      say({ end: true });
      const patience = setTimeout(() => void worker.terminate(), endTakes_ms);
      await exited.promise;
      clearTimeout(patience);
    },
  };
}

const ended = (why: string): Problem => ({
  kind: 'archive-ended',
  sentence: `The archive cannot be asked just now: ${why}.`,
  remedy: 'Nothing is lost: what waits goes with the next start. Save a report if it happens again.',
});
