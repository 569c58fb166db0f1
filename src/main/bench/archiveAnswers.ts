import type { ArchiveFoundBuilds } from '../../shared/contract/archive.ts';
import { mostListed } from '../../shared/contract/builds.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { ok, type Problem } from '../../shared/basics/result.ts';
import { type ArchiveKeeper, openArchive } from '../archive/keeper.ts';
import { listedPage } from './listedPage.ts';
import type { BenchOptions, OpenBench } from './parts.ts';
import { tellChanged } from './writing.ts';

type Names = Extract<keyof BenchAnswers, `archive.${string}`>;
type Ground = Pick<OpenBench, 'database' | 'outlet' | 'warnings'>;

/** News of one build are told at once, of many together. */
const tellEvery_ms = 1000;

/** The archive of this bench; how it stands and what other benches send is told to every screen. */
export function keepArchive(
  { simulation, keychain }: BenchOptions,
  { database, outlet, warnings }: Ground,
): ArchiveKeeper {
  const news = createNews((builds) => outlet.tell('archive-news', { builds }));
  const archive = openArchive({
    database,
    keychain,
    onState(state) {
      outlet.tell('archive', state);
      // Only what nobody but a person can mend: that it is away mends itself, and stands in Settings.
      if (state.refused.length > 0) warnings.set('archive', refusedWords(state.refused.length));
      else warnings.clear('archive');
    },
    onNews: (builds) => news.add(builds),
    ...(simulation === undefined ? {} : { mayNot: simulated }),
  });
  const stop = outlet.hear('notebook-changed', () => archive.poke());
  return {
    ...archive,
    async close() {
      stop();
      news.stop();
      await archive.close();
    },
  };
}

function createNews(tell: (builds: string[]) => void) {
  const fresh = new Set<string>();
  let timer: NodeJS.Timeout | undefined;
  let isFresh = false;
  const flush = (): void => {
    timer = undefined;
    if (!isFresh) return;
    tell([...fresh].slice(0, 100));
    fresh.clear();
    isFresh = false;
    timer = setTimeout(flush, tellEvery_ms).unref();
  };
  return {
    add(builds: readonly string[]): void {
      for (const build of builds) fresh.add(build);
      isFresh = true;
      if (timer === undefined) flush();
    },
    stop: () => clearTimeout(timer),
  };
}

export function archiveAnswers(bench: OpenBench): Pick<BenchAnswers, Names> {
  const { archive, database, buildList } = bench;
  return {
    'archive.state': async () => ok(archive.state()),
    'archive.test': async (reach) => archive.test(reach),
    'archive.choose': async (reach) => archive.choose(reach),
    'archive.find': async ({ words }) => {
      const found = await archive.find(words, mostListed);
      if (found?.ok !== true) return ok(await foundHere(bench, words, found?.problem));
      const builds = found.value.builds.map((one) => ({
        ...one,
        here: buildList.summary(one.summary.id) !== undefined,
      }));
      return ok({ from: 'archive', near: found.value.near, builds });
    },
    'archive.fetch': async ({ build }) => {
      const taken = await archive.fetch(build);
      if (!taken.ok) return taken;
      // Written by the archive's thread: what is safe is noted here, where everything else is.
      database.witness.noteSoon();
      tellChanged(bench, build);
      return taken;
    },
  };
}

/** What this bench knows by itself, where the archive is out of reach or there is none. */
async function foundHere(bench: OpenBench, words: string, why: Problem | undefined): Promise<ArchiveFoundBuilds> {
  const { id, name } = bench.identity.bench;
  const builds = await listedPage(bench, { words });
  return {
    from: 'here',
    ...(why === undefined ? {} : { why: { kind: why.kind, sentence: why.sentence, remedy: why.remedy } }),
    near: false,
    builds: builds.map((summary) => ({ summary, bench: { id, name }, here: true })),
  };
}

const refusedWords = (count: number): Problem => ({
  kind: 'archive-refused',
  sentence: `The archive has ${count === 1 ? 'one entry' : `${count} entries`} of this bench otherwise under the same name.`,
  remedy: 'Both are kept as they are. Settings, Archive shows which.',
});

const simulated: Problem = {
  kind: 'simulated',
  sentence: 'What was measured on a simulated axle goes to no archive.',
  remedy: 'Choose the archive on the bench for real axles.',
};
