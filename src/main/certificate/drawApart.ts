import { Worker } from 'node:worker_threads';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { threadProgram } from '../threadProgram.ts';
import type { DrawAsked, DrawnApart, WordFromDrawing } from './drawWords.ts';

interface Watching {
  readonly signal?: AbortSignal | undefined;
  /** Told how far it has come, 0 to 1. */
  readonly onShare?: ((share: number) => void) | undefined;
}

/** Draws a certificate in a thread of its own; stopped at once where the person wants it no more. */
export async function drawApart(asked: DrawAsked, { signal, onShare }: Watching = {}): Promise<Result<DrawnApart>> {
  if (signal?.aborted === true) return fail(stopped);
  const worker = new Worker(threadProgram(import.meta.dirname, 'drawWorker'), { workerData: asked });
  const done = Promise.withResolvers<Result<DrawnApart>>();
  worker.on('message', (word: WordFromDrawing) => {
    if ('drawn' in word) done.resolve(ok(word.drawn));
    else onShare?.(word.share);
  });
  worker.on('error', (error) => done.resolve(fail(notDrawn(error instanceof Error ? error.message : String(error)))));
  worker.on('exit', () => done.resolve(fail(signal?.aborted === true ? stopped : notDrawn('its thread ended'))));
  const stop = (): void => void worker.terminate();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    return await done.promise;
  } finally {
    signal?.removeEventListener('abort', stop);
    void worker.terminate();
  }
}

const stopped: Problem = {
  kind: 'stopped',
  sentence: 'Stopped before it was written.',
  remedy: 'Nothing was changed.',
};

const notDrawn = (why: string): Problem => ({
  kind: 'not-drawn',
  sentence: `The pages could not be drawn: ${why}.`,
  remedy: 'Save a report in Settings; the data of the build can be had as a file all the same.',
});
