import type { BenchAnswers } from '../../shared/contract/contract.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import { type Deed, lastStanding, lastStrike, standing } from '../../shared/job/records/notebook.ts';
import type { SpecSheet } from '../../shared/job/records/specSheet.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { type Desk, readBuild, summaryOf, writeEntry } from './writing.ts';

type Names =
  | 'builds.list'
  | 'builds.start'
  | 'builds.read'
  | 'builds.write'
  | 'builds.undo'
  | 'builds.redo'
  | 'spec-sheets.list';

/** Everything about builds that is not a measurement from a gauge. */
export function buildAnswers(desk: Desk): Pick<BenchAnswers, Names> {
  return {
    'builds.list': async () => ok(everyNotebook(desk).map(summaryOf)),
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
      const refused = misplaced(notebook.value, deed);
      return refused === undefined ? writeEntry(desk, build, by, deed) : fail(refused);
    },
    'builds.undo': async ({ build, by }) => strike(desk, build, by, lastStanding, 'There is nothing to undo.'),
    'builds.redo': async ({ build, by }) => strike(desk, build, by, lastStrike, 'There is nothing to bring back.'),
    'spec-sheets.list': async () => ok(specSheets(desk)),
  };
}

const everyNotebook = (desk: Desk): readonly Notebook[] =>
  desk.notebooks.ids().flatMap((id) => {
    const notebook = desk.notebooks.read(id);
    return notebook === undefined ? [] : [notebook];
  });

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

function strike(desk: Desk, build: string, by: string, which: typeof lastStanding, nothing: string): Result<Notebook> {
  const notebook = readBuild(desk, build);
  if (!notebook.ok) return notebook;
  const entry = which(notebook.value.entries);
  if (entry === undefined)
    return fail({ kind: 'nothing-to-undo', sentence: nothing, remedy: 'Go on with the next step.' });
  return writeEntry(desk, build, by, { kind: 'struck', entry: entry.id });
}

/** The newest sheet of each name, over all builds: limits once typed need not be typed again. */
function specSheets(desk: Desk): SpecSheet[] {
  const byName = new Map<string, { readonly at: string; readonly sheet: SpecSheet }>();
  for (const notebook of everyNotebook(desk)) {
    for (const { at, deed } of standing(notebook.entries)) {
      if (deed.kind !== 'limits-set') continue;
      const known = byName.get(deed.specSheet.name);
      if (known === undefined || known.at < at) byName.set(deed.specSheet.name, { at, sheet: deed.specSheet });
    }
  }
  return [...byName.values()].map(({ sheet }) => sheet).toSorted((a, b) => a.name.localeCompare(b.name));
}
