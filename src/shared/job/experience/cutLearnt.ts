import type { MakeUp } from '../../axle/makeUp.ts';
import type { Build } from '../records/build.ts';
import type { EarlierBuild } from './earlier.ts';

/** One typed cut may be a slip of the finger; two that agree, with none against them, are believed (own choice). */
const enough = 2;

/** A build whose cut was taken from earlier ones, and the sentence that says so. */
export interface CutLearnt {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly note: string;
}

/**
 * The cut of the teeth, where nobody knows it on this axle and earlier builds of the same axle and maker agree on it.
 * @returns nothing where it is known, too few say it or two say otherwise.
 */
export function cutLearnt(
  build: Build,
  earlier: readonly EarlierBuild[],
  leftOut: readonly string[],
): CutLearnt | undefined {
  const { makeUp } = build;
  if (makeUp === undefined || makeUp.cut !== 'not-known') return undefined;
  const said = earlier
    .filter(({ shares, build: { id } }) => shares.relief && !leftOut.includes(id))
    .map((one) => one.build.makeUp?.cut ?? 'not-known')
    .filter((cut) => cut !== 'not-known');
  const [cut] = said;
  if (cut === undefined || said.length < enough || said.some((one) => one !== cut)) return undefined;
  const note = `The cut is not known here and is taken from ${said.length} earlier builds of this axle: ${cut}.`;
  return { build: { ...build, makeUp: { ...makeUp, cut } }, note };
}
