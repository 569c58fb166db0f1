import { useEffect, useState } from 'react';
import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import { ask } from './ask.ts';

/** How far each paper has come that a screen here waits for. */
const usePapers = create<Readonly<Record<string, number>>>()(() => ({}));

export const followPapers = (client: BenchClient): (() => void) =>
  client.hear('paper', ({ job, share }) => usePapers.setState({ [job]: share }));

/** One paper a screen asks for: its name for the bench, how far it has come while `run` runs, and an end to it. */
export interface Paper {
  readonly job: string;
  /** 0 to 1 while it is being drawn. */
  readonly share: number | undefined;
  run<T>(deed: () => Promise<T>): Promise<T>;
  readonly stop: () => void;
}

export function usePaper(): Paper {
  const [job] = useState(() => `paper ${crypto.randomUUID()}`);
  const [running, setRunning] = useState(false);
  const share = usePapers((papers) => papers[job]);
  // Whoever leaves the screen waits for nothing any more.
  useEffect(() => () => void ask('papers.stop', { job }, () => undefined), [job]);
  return {
    job,
    share: running ? (share ?? 0) : undefined,
    async run(deed) {
      usePapers.setState({ [job]: 0 });
      setRunning(true);
      try {
        return await deed();
      } finally {
        setRunning(false);
      }
    },
    stop: () => void ask('papers.stop', { job }),
  };
}
