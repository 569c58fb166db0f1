import { type Deed, type Entry, entryVersion, type Notebook } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { BuildList } from '../store/buildList.ts';
import type { Notebooks } from '../store/notebooks.ts';
import type { Outlet } from './outlet.ts';

export interface Desk {
  readonly notebooks: Notebooks;
  readonly buildList: BuildList;
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
  tellChanged(desk, build);
  return readBuild(desk, build);
}

/** Tells every screen that a build has gone on, with its new line of the list. */
export function tellChanged({ buildList, outlet }: Pick<Desk, 'buildList' | 'outlet'>, build: string): void {
  const summary = buildList.summary(build);
  if (summary !== undefined) outlet.tell('notebook-changed', { build, summary });
}
