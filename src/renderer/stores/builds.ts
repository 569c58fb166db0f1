import { useEffect, useState } from 'react';
import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import { type BuildCounts, type BuildSummary, mostListed } from '../../shared/contract/builds.ts';
import type { Sought } from '../../shared/job/shop/sought.ts';
import { ask } from './ask.ts';

interface Builds {
  /** The builds worked on last, newest work first; undefined until the bench has answered. */
  readonly builds: readonly BuildSummary[] | undefined;
  readonly counts: BuildCounts | undefined;
}

export const useBuilds = create<Builds>()(() => ({ builds: undefined, counts: undefined }));

export async function loadBuilds(): Promise<void> {
  const builds = await ask('builds.list', {});
  if (builds !== undefined) useBuilds.setState({ builds });
  await loadCounts();
}

async function loadCounts(): Promise<void> {
  const counts = await ask('builds.counts', {});
  if (counts !== undefined) useBuilds.setState({ counts });
}

export const followBuilds = (client: BenchClient): (() => void) =>
  client.hear('notebook-changed', ({ summary }) => {
    useBuilds.setState(({ builds }) => ({
      builds: [summary, ...(builds ?? []).filter((one) => one.id !== summary.id)].slice(0, mostListed),
    }));
    void loadCounts();
  });

/** Builds that were sought, as far as they were asked for. */
export interface FoundBuilds {
  /** Undefined until the bench has answered. */
  readonly builds: readonly BuildSummary[] | undefined;
  /** Asks for those behind the last one; undefined where there are no more. */
  readonly more: (() => void) | undefined;
}

/** Calls `look` as soon as the bench has answered once, and whenever a build has gone on: before, nobody could answer. */
export function onBuilds(look: () => void): () => void {
  if (useBuilds.getState().builds !== undefined) look();
  return useBuilds.subscribe((now, before) => {
    if (now.builds !== before.builds) look();
  });
}

/** The builds sought, newest work first, followed while notebooks go on. */
export function useSought(sought: Sought): FoundBuilds {
  const [found, setFound] = useState<{ readonly key: string; readonly builds: readonly BuildSummary[] }>();
  const key = JSON.stringify(sought);
  useEffect(() => {
    let there = true;
    const look = (): void =>
      void ask('builds.list', JSON.parse(key) as Sought).then(
        (builds) => there && builds !== undefined && setFound({ key, builds }),
      );
    const stop = onBuilds(look);
    return () => {
      there = false;
      stop();
    };
  }, [key]);
  // What was found before stands until the answer comes; that nothing was found is said of these words alone.
  const builds = found?.key === key || found?.builds.length !== 0 ? found?.builds : undefined;
  const last = builds?.at(-1);
  const isFull = builds !== undefined && builds.length > 0 && builds.length % mostListed === 0;
  const more = (): void =>
    void ask('builds.list', { ...sought, before: last?.id }).then(
      (next) =>
        next !== undefined && setFound((now) => (now?.key === key ? { key, builds: [...now.builds, ...next] } : now)),
    );
  return { builds, more: isFull ? more : undefined };
}

/** One build as the list tells it, whether or not it is among those shown; undefined until the bench has answered. */
export function useSummary(build: string | undefined): BuildSummary | undefined {
  const [summary, setSummary] = useState<BuildSummary>();
  useEffect(() => {
    let there = true;
    if (build === undefined) return undefined;
    const stop = onBuilds(
      () => void ask('builds.summary', { build }).then((read) => there && setSummary(read?.summary)),
    );
    return () => {
      there = false;
      stop();
    };
  }, [build]);
  return summary?.id === build ? summary : undefined;
}
