import { Worker } from 'node:worker_threads';
import { fail, type Problem, type Result } from '../../shared/basics/result.ts';
import { threadProgram } from '../threadProgram.ts';
import type { Made, Making } from './make.ts';
import type { WordFromThread } from './threadWords.ts';

/** Makes a backup in a thread of its own. */
export async function makeApart({ from, into, now_ms, onProgress, signal }: Making): Promise<Result<Made>> {
  const worker = new Worker(threadProgram(import.meta.dirname, 'backupWorker'), { workerData: { from, into, now_ms } });
  const stop = (): void => worker.postMessage('stop');
  signal?.addEventListener('abort', stop, { once: true });
  const done = Promise.withResolvers<Result<Made>>();
  worker.on('message', (word: WordFromThread) => {
    if ('made' in word) done.resolve(word.made);
    else onProgress?.(word.share);
  });
  worker.on('error', (error) => done.resolve(fail(ended(String(error)))));
  worker.on('exit', () => done.resolve(fail(ended('its thread ended'))));
  if (signal?.aborted === true) stop();
  try {
    return await done.promise;
  } finally {
    signal?.removeEventListener('abort', stop);
  }
}

const ended = (why: string): Problem => ({
  kind: 'backup-ended',
  sentence: `No backup was made: ${why}.`,
  remedy: 'The earlier backups are as they were. Try again, and save a report if it happens again.',
});
