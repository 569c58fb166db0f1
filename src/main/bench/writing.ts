import type { BuildSummary, Notebook } from '../../shared/contract/builds.ts';
import { assemblyName, currentAssembly, readNotebook } from '../../shared/job/records/build.ts';
import { type Deed, type Entry, entryVersion } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { Notebooks } from '../store/notebooks.ts';
import type { Outlet } from './outlet.ts';

export interface Desk {
  readonly notebooks: Notebooks;
  readonly outlet: Outlet;
  readonly clock: Clock;
  readonly newId: () => string;
}

export const noBuild = (build: string): Problem => ({
  kind: 'no-build',
  field: 'build',
  sentence: `There is no build ${build} in this data folder.`,
  remedy: 'Choose a build from the list.',
});

export const instant = (clock: Clock): string => new Date(clock.wall_ms()).toISOString();

export const readBuild = (desk: Pick<Desk, 'notebooks'>, build: string): Result<Notebook> =>
  desk.notebooks.read(build) ?? fail(noBuild(build));

/** Writes one entry, tells everyone, and gives the whole notebook back: there is one way to write, for every deed. */
export function writeEntry(desk: Desk, build: string, by: string, deed: Deed): Result<Notebook> {
  const before = deed.kind === 'started' ? ok({ id: build, entries: [] }) : readBuild(desk, build);
  if (!before.ok) return before;
  const entry: Entry = { id: desk.newId(), version: entryVersion, at: instant(desk.clock), by, deed };
  const written = desk.notebooks.add(build, entry);
  if (!written.ok) return written;
  const notebook: Notebook = { id: build, entries: [...before.value.entries, written.value] };
  desk.outlet.tell('notebook-changed', { build, summary: summaryOf(notebook) });
  return ok(notebook);
}

/** A build in one line of the list. */
export function summaryOf(notebook: Notebook): BuildSummary {
  const build = readNotebook(notebook.id, notebook.entries);
  const assembly = currentAssembly(build);
  return {
    id: build.id,
    title: build.title,
    technician: build.technician,
    startedAt: build.startedAt,
    lastEntryAt: notebook.entries.at(-1)?.at ?? build.startedAt,
    lies: build.lies,
    standsAt: assembly === undefined ? '' : assemblyName(assembly),
  };
}
