import { useEffect, useState } from 'react';
import { create } from 'zustand';
import type { ArchiveFoundBuilds, ArchiveReach, ArchiveState } from '../../shared/contract/archive.ts';
import type { BenchClient } from '../../shared/contract/contract.ts';
import { isNone, type Problem } from '../../shared/basics/result.ts';
import { ask } from './ask.ts';

interface Archive {
  /** How this bench stands with its archive; undefined until the bench has answered. */
  readonly state: ArchiveState | undefined;
  /** Rises with what other benches send. */
  readonly news: number;
}

export const useArchive = create<Archive>()(() => ({ state: undefined, news: 0 }));

const lay = (state: ArchiveState | undefined): boolean => {
  if (state !== undefined) useArchive.setState({ state });
  return state !== undefined;
};

export const loadArchive = async (): Promise<boolean> => lay(await ask('archive.state', {}));

/** Follows how it stands, and what other benches send. */
export function followArchive(client: BenchClient): () => void {
  const ends = [
    client.hear('archive', (state) => void lay(state)),
    client.hear('archive-news', () => useArchive.setState(({ news }) => ({ news: news + 1 }))),
  ];
  return () => ends.forEach((end) => end());
}

type OnProblem = (problem: Problem) => void;

export const testArchive = async (reach: ArchiveReach, onProblem: OnProblem): Promise<boolean> =>
  (await ask('archive.test', reach, onProblem)) !== undefined;

export const chooseArchive = async (reach: ArchiveReach, onProblem: OnProblem): Promise<boolean> =>
  lay(await ask('archive.choose', reach, onProblem));

export const switchArchiveOff = async (): Promise<boolean> =>
  lay(await ask('archive.choose', { none: 'switched off' }));

/** Brings a build out of the archive into the records of this bench, with what other benches wrote in it. @returns whether it is here */
export const bringBuild = async (build: string): Promise<boolean> =>
  (await ask('archive.fetch', { build })) !== undefined;

/** Whoever types has the next letter in less. */
const typing_ms = 200;

/** The builds of all benches with these words; undefined where there is no archive, or until it has answered. */
export function useAllBenches(words: string): ArchiveFoundBuilds | undefined {
  const [found, setFound] = useState<ArchiveFoundBuilds>();
  const isChosen = useArchive(({ state }) => state !== undefined && !isNone(state.address));
  useEffect(() => {
    let there = true;
    if (!isChosen) return undefined;
    const look = (): void => void ask('archive.find', { words }, () => undefined).then((now) => there && setFound(now));
    const timer = setTimeout(look, typing_ms);
    const stop = useArchive.subscribe((now, before) => {
      if (now.news !== before.news) look();
    });
    return () => {
      there = false;
      clearTimeout(timer);
      stop();
    };
  }, [words, isChosen]);
  return isChosen ? found : undefined;
}
