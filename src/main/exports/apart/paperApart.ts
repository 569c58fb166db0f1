import { Worker } from 'node:worker_threads';
import { fail, type Problem, type Result } from '../../../shared/basics/result.ts';
import { threadProgram } from '../../threadProgram.ts';
import type { MadeOf, PaperAsked, Wanted, WordFromPaper } from './words.ts';

interface Watching {
  readonly signal?: AbortSignal | undefined;
  /** Told how far it has come, 0 to 1. */
  readonly onShare?: ((share: number) => void) | undefined;
}

type AskedFor<W extends Wanted> = Omit<PaperAsked, 'wanted'> & { readonly wanted: W };

/** Makes papers or files of a build in a thread of its own; stopped at once where the person wants it no more. */
export async function paperApart<W extends Wanted>(
  asked: AskedFor<W>,
  { signal, onShare }: Watching = {},
): Promise<Result<MadeOf[W['make']]>> {
  if (signal?.aborted === true) return fail(stopped);
  const worker = new Worker(threadProgram(import.meta.dirname, 'paperWorker'), { workerData: asked });
  const done = Promise.withResolvers<Result<MadeOf[W['make']]>>();
  worker.on('message', (word: WordFromPaper<W['make']>) => {
    if ('made' in word) done.resolve(word.made);
    else onShare?.(word.share);
  });
  worker.on('error', (error) => done.resolve(fail(notMade(error instanceof Error ? error.message : String(error)))));
  worker.on('exit', () => done.resolve(fail(signal?.aborted === true ? stopped : notMade('its thread ended'))));
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

const notMade = (why: string): Problem => ({
  kind: 'not-drawn',
  sentence: `The pages could not be drawn: ${why}.`,
  remedy: 'Save a report in Settings; the data of the build can be had as a file all the same.',
});
