import { fail, type Problem, type Result } from '../../shared/basics/result.ts';
import type { ReadAnswer, ReadAsk, Shrunk, WorkerAnswers, WorkerAsk } from './messages.ts';

/** Opens and reads photos without holding up the screen. */
interface PhotoReader {
  shrink(file: Blob): Promise<Result<Shrunk>>;
  open(jpeg: Blob): Promise<WorkerAnswers['open']>;
  /** Reads the open photo. While one reading runs only the latest wish waits: those between are answered by undefined. */
  read(ask: ReadAsk): Promise<ReadAnswer | undefined>;
}

let opened: PhotoReader | undefined;

/** The one reader of this page, started when the first photo comes. */
export function photoReader(): PhotoReader {
  opened ??= openReader();
  return opened;
}

function openReader(): PhotoReader {
  const worker = new Worker(new URL('./readWorker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, (answer: never) => void>();
  let next = 0;
  let running = false;
  let dead = false;
  let wish: { readonly ask: ReadAsk; readonly give: (answer: ReadAnswer | undefined) => void } | undefined;

  worker.addEventListener('message', ({ data }: MessageEvent<{ id: number; answer: never }>) => {
    waiting.get(data.id)?.(data.answer);
    waiting.delete(data.id);
  });
  worker.addEventListener('error', () => {
    dead = true;
    for (const give of waiting.values()) give(noAnswer as never);
    waiting.clear();
  });
  const ask = <Do extends WorkerAsk['do']>(what: WorkerAsk & { do: Do }): Promise<WorkerAnswers[Do]> =>
    new Promise((give) => {
      if (dead) return give(noAnswer);
      next += 1;
      waiting.set(next, give);
      worker.postMessage({ id: next, ask: what });
      return undefined;
    });

  async function readOn(): Promise<void> {
    if (running) return;
    running = true;
    while (wish !== undefined) {
      const { ask: what, give } = wish;
      wish = undefined;
      give(await ask({ do: 'read', ...what }));
    }
    running = false;
  }
  return {
    shrink: (file) => ask({ do: 'shrink', file }),
    open: (jpeg) => ask({ do: 'open', jpeg }),
    read(what) {
      wish?.give(undefined);
      return new Promise((give) => {
        wish = { ask: what, give };
        void readOn();
      });
    },
  };
}

const stopped: Problem = {
  kind: 'reader-stopped',
  sentence: 'Reading the photo stopped unexpectedly.',
  remedy: 'The photo is kept if it is shown under the photos of this trial. Open it again, or draw the mark by hand.',
};

/** Fits every question: a result that failed, and a reading without one. */
const noAnswer = { ...fail(stopped), straight: undefined, result: fail(stopped), took_ms: 0 };
