import type { Outlet } from './outlet.ts';

/** What is being drawn, each under the name that the screen which asked has given it. */
export interface PaperJobs {
  /** Runs a deed that can be stopped, and tells how far it has come. */
  run<T>(job: string | undefined, deed: (watching: Watching) => Promise<T>): Promise<T>;
  stop(job: string): void;
}

interface Watching {
  readonly signal: AbortSignal;
  readonly onShare: (share: number) => void;
}

export function paperJobs(outlet: Outlet): PaperJobs {
  const running = new Map<string, AbortController>();
  return {
    async run(job, deed) {
      const ending = new AbortController();
      if (job !== undefined) running.set(job, ending);
      const onShare = (share: number): void => {
        if (job !== undefined) outlet.tell('paper', { job, share: Math.min(1, Math.max(0, share)) });
      };
      try {
        return await deed({ signal: ending.signal, onShare });
      } finally {
        if (job !== undefined && running.get(job) === ending) running.delete(job);
      }
    },
    stop: (job) => running.get(job)?.abort(),
  };
}
