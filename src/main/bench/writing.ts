import type { BuildSummary } from '../../shared/contract/builds.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { assemblyName, currentAssembly, readNotebook } from '../../shared/job/records/build.ts';
import { type Deed, type Entry, entryVersion } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { Notebooks } from '../store/notebooks.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import type { Outlet } from './outlet.ts';

export interface Desk {
  readonly notebooks: Notebooks;
  readonly outlet: Outlet;
  readonly clock: Clock;
  readonly newId: () => string;
  /** Where the database lies, for the sentence when the disk refuses. */
  readonly place: string;
}

export const noBuild = (build: string): Problem => ({
  kind: 'no-build',
  field: 'build',
  sentence: `There is no build ${build} in this data folder.`,
  remedy: 'Choose a build from the list.',
});

export const instant = (clock: Clock): string => new Date(clock.wall_ms()).toISOString();

export function readBuild(desk: Desk, build: string): Result<Notebook> {
  const notebook = desk.notebooks.read(build);
  return notebook === undefined ? fail(noBuild(build)) : ok(notebook);
}

/** Writes one entry, tells everyone, and gives the whole notebook back: there is one way to write, for every deed. */
export function writeEntry(desk: Desk, build: string, by: string, deed: Deed): Result<Notebook> {
  const before = desk.notebooks.read(build);
  if (before === undefined && deed.kind !== 'started') return fail(noBuild(build));
  const entry: Entry = { id: desk.newId(), version: entryVersion, at: instant(desk.clock), by, deed };
  try {
    desk.notebooks.add(build, entry);
  } catch (error) {
    return fail(databaseProblem(error, desk.place));
  }
  const notebook: Notebook = { id: build, entries: [...(before?.entries ?? []), entry] };
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
    standsAt: assembly === undefined ? '' : assemblyName(assembly),
  };
}
