import { causes, type Shares } from '../../axle/experience/alike.ts';
import { type Build, readNotebook } from '../records/build.ts';
import { type Notebook, standing } from '../records/notebook.ts';
import { isClosed } from './closed.ts';
import { sharesOf } from './likeness.ts';

/** A finished build that has something in common with the one on the stand. */
export interface EarlierBuild {
  readonly build: Build;
  /** When its certificate was made. */
  readonly closedAt: string;
  readonly shares: Shares;
  /** Changes with everything written into its notebook: what was learnt from an older state must not stand for it. */
  readonly state: string;
}

/** More builds than this teach nothing more (own choice); the newest count. */
export const mostEarlier = 40;

/** Finished builds that have something in common with this one, newest first. */
export function earlierBuilds(now: Build, notebooks: readonly Notebook[]): readonly EarlierBuild[] {
  return notebooks
    .filter(({ id }) => id !== now.id)
    .flatMap((notebook) => {
      const earlier = earlierFrom(now, notebook);
      return earlier === undefined ? [] : [earlier];
    })
    .toSorted((a, b) => b.closedAt.localeCompare(a.closedAt) || a.build.id.localeCompare(b.build.id))
    .slice(0, mostEarlier);
}

function earlierFrom(now: Build, notebook: Notebook): EarlierBuild | undefined {
  const build = readNotebook(notebook.id, notebook.entries);
  const shares = sharesOf(now, build);
  if (!causes.some((cause) => shares[cause]) || !isClosed(notebook, build)) return undefined;
  const closedAt = standing(notebook.entries).findLast(({ deed }) => deed.kind === 'certified')?.at ?? '';
  return {
    build,
    closedAt,
    shares,
    state: `${build.id} ${notebook.entries.length} ${notebook.entries.at(-1)?.id ?? ''}`,
  };
}

/** "6 earlier builds of this axle", "9 earlier builds: 6 of this axle, 3 by the same hand". */
export function fromWords(shares: readonly Shares[]): string {
  const count = (has: (one: Shares) => boolean): number => shares.filter(has).length;
  const builds = (many: number): string => `${many} earlier ${many === 1 ? 'build' : 'builds'}`;
  const ofAxle = count(({ relief, backlash }) => relief || backlash);
  const ofHand = shares.length - ofAxle;
  if (ofHand === 0) return `${builds(ofAxle)} of this axle`;
  const hand = 'by the same hand on other axles';
  return ofAxle === 0
    ? `${builds(ofHand)} ${hand}`
    : `${builds(shares.length)}: ${ofAxle} of this axle, ${ofHand} ${hand}`;
}
