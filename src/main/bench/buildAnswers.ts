import type { BenchAnswers } from '../../shared/contract/contract.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import { type Deed, lastStanding, lastStrike } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { changesRead, readingWords } from '../../shared/job/checks/limitChanges.ts';
import { mostListed } from '../../shared/contract/builds.ts';
import { shopOverTime } from '../store/shopOverTime.ts';
import { listedPage } from './listedPage.ts';
import type { Database } from '../store/database.ts';
import { swapReckoned } from './swapReckoned.ts';
import { type Desk, readBuild, writeEntry } from './writing.ts';

type Names =
  | 'builds.list'
  | 'builds.counts'
  | 'builds.summary'
  | 'builds.unreadable'
  | 'builds.start'
  | 'builds.read'
  | 'builds.write'
  | 'builds.undo'
  | 'builds.redo'
  | 'shop.over-time'
  | 'spec-sheets.list';

/** Everything about builds that is not a measurement from a gauge. */
export function buildAnswers(desk: Desk & { readonly database: Database }): Pick<BenchAnswers, Names> {
  return {
    'builds.list': async ({ before, ...sought }) => ok(await listedPage(desk, sought, before)),
    'builds.counts': async () => ok(desk.buildList.counts()),
    'builds.summary': async ({ build }) => {
      const summary = desk.buildList.summary(build);
      return ok(summary === undefined ? {} : { summary });
    },
    'builds.unreadable': async () => {
      await listedPage(desk, {});
      return ok([...desk.buildList.unreadable(mostListed)]);
    },
    'builds.start': async ({ title, technician, comebackOf }) =>
      writeEntry(desk, desk.newId(), technician, {
        kind: 'started',
        title,
        technician,
        ...(comebackOf === undefined ? {} : { comebackOf }),
      }),
    'builds.read': async ({ build }) => readBuild(desk, build),
    'builds.write': async ({ build, by, deed }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const refused = misplaced(notebook.value, deed) ?? whyMissing(notebook.value, deed);
      if (refused !== undefined) return fail(refused);
      const reckoned = deed.kind === 'swap-planned' ? swapReckoned(notebook.value, deed) : ok(deed);
      return reckoned.ok ? writeEntry(desk, build, by, reckoned.value) : reckoned;
    },
    'builds.undo': async ({ build, by }) => strike(desk, { build, by }, lastStanding, 'There is nothing to undo.'),
    'builds.redo': async ({ build, by }) => strike(desk, { build, by }, lastStrike, 'There is nothing to bring back.'),
    'shop.over-time': async () => ok([...shopOverTime(desk.database)]),
    'spec-sheets.list': async () => ok([...desk.buildList.sheets()]),
  };
}

/** A deed must belong to an assembly, or strike an entry, that stands in this notebook. */
export function misplaced(notebook: Notebook, deed: Deed): Problem | undefined {
  const swap = swapNamed(deed);
  if (swap !== undefined) {
    const there = readNotebook(notebook.id, notebook.entries).swaps.some(({ id }) => id === swap);
    if (!there) return noSuch('swap', 'This swap card is not in the build, or was struck through.');
  }
  if ('assembly' in deed && typeof deed.assembly === 'string') {
    const { assembly } = deed;
    const there = readNotebook(notebook.id, notebook.entries).assemblies.some((one) => one.id === assembly);
    return there ? undefined : noSuch('assembly', 'This assembly is not in the build, or was struck through.');
  }
  if (deed.kind === 'struck') {
    const target = notebook.entries.find((entry) => entry.id === deed.entry);
    if (target === undefined) return noSuch('entry', 'There is no such entry in the notebook.');
    if (target.deed.kind === 'started') return noSuch('entry', 'The start of a build cannot be struck through.');
  }
  return undefined;
}

/** A limit is not exchanged under a reading that was held against it without a word why. */
function whyMissing({ id, entries }: Notebook, deed: Deed): Problem | undefined {
  if (deed.kind !== 'limits-set' || deed.change !== undefined) return undefined;
  const { readings } = changesRead(readNotebook(id, entries), deed.specSheet);
  const [first] = readings;
  if (first === undefined) return undefined;
  const many = readings.length === 1 ? '' : ` and ${readings.length - 1} more`;
  return {
    kind: 'why-missing',
    field: 'deed.change',
    sentence: `${readingWords(first)}${many}: held against a limit that changes here.`,
    remedy: 'Say why it changes, and whether what was read is judged anew.',
  };
}

/** The swap card a deed follows, if it follows one. */
function swapNamed(deed: Deed): string | undefined {
  if (deed.kind === 'packs-measured') return deed.swap;
  return deed.kind === 'assembled' ? deed.assembly.swap : undefined;
}

const noSuch = (field: string, sentence: string): Problem => ({
  kind: 'misplaced',
  field,
  sentence,
  remedy: 'Read the build again and choose from what is there.',
});

function strike(
  desk: Desk,
  { build, by }: { readonly build: string; readonly by: string },
  which: typeof lastStanding,
  nothing: string,
): Result<Notebook> {
  const notebook = readBuild(desk, build);
  if (!notebook.ok) return notebook;
  const entry = which(notebook.value.entries);
  if (entry === undefined)
    return fail({ kind: 'nothing-to-undo', sentence: nothing, remedy: 'Go on with the next step.' });
  return writeEntry(desk, build, by, { kind: 'struck', entry: entry.id });
}
