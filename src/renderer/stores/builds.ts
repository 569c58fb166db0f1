import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import { type BuildSummary, mostListed } from '../../shared/contract/builds.ts';
import { ask } from './ask.ts';
import { everyPage } from './pages.ts';

/** All builds, newest work first; undefined until the bench has answered. */
export const useBuilds = create<{ readonly builds: readonly BuildSummary[] | undefined }>()(() => ({
  builds: undefined,
}));

const newestFirst = (builds: readonly BuildSummary[]): readonly BuildSummary[] =>
  builds.toSorted((a, b) => b.lastEntryAt.localeCompare(a.lastEntryAt));

export async function loadBuilds(): Promise<void> {
  const builds = await everyPage((before) => ask('builds.list', before === undefined ? {} : { before }), mostListed);
  if (builds !== undefined) useBuilds.setState({ builds: newestFirst(builds) });
}

export const followBuilds = (client: BenchClient): (() => void) =>
  client.hear('notebook-changed', ({ summary }) =>
    useBuilds.setState(({ builds }) => ({
      builds: newestFirst([...(builds ?? []).filter((one) => one.id !== summary.id), summary]),
    })),
  );
