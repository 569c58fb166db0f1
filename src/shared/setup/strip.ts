import { type Assembly, type Build, latest, packAt } from '../records/build.ts';
import { insideOf } from '../records/common.ts';
import { shimPlaces, type ShimPlace, shimPlacesOf } from '../records/makeUp.ts';
import type { BacklashResult, MarkResult, ShimPack } from '../records/measurement.ts';

/** The pack at one place, and by how much it differs from the one before. */
export interface StripPack {
  readonly place: ShimPlace;
  readonly pack: ShimPack['pack'];
  /** Thicker than in the assembly before that has one, in mm; absent for the first. */
  readonly change_mm?: number;
}

/** One assembly as it stands in the strip of all trials. */
export interface StripEntry {
  readonly assembly: Assembly;
  readonly packs: readonly StripPack[];
  readonly backlash?: BacklashResult;
  readonly mark?: MarkResult;
}

/** Smaller than a micrometer tells apart. */
const same_mm = 0.0005;

/** Every putting-together of the axle, in order, with what was changed and what came of it. */
export const stripOf = (build: Build): readonly StripEntry[] =>
  build.assemblies.map((assembly, n) => {
    const backlash = latest(assembly, 'backlash')?.result;
    const mark = latest(assembly, 'mark')?.result;
    return {
      assembly,
      packs: packsOf(build, assembly, build.assemblies.slice(0, n)),
      ...(backlash?.kind === 'backlash' ? { backlash } : {}),
      ...(mark?.kind === 'mark' ? { mark } : {}),
    };
  });

function packsOf(build: Build, assembly: Assembly, before: readonly Assembly[]): readonly StripPack[] {
  const places = build.makeUp === undefined ? shimPlaces : shimPlacesOf(build.makeUp);
  return places.flatMap((place) => {
    const pack = packAt(assembly, place)?.pack;
    if (pack === undefined) return [];
    const earlier = before.findLast((one) => packAt(one, place) !== undefined);
    const was = earlier === undefined ? undefined : packAt(earlier, place)?.pack;
    return [{ place, pack, ...(was === undefined ? {} : { change_mm: changed(insideOf(pack) - insideOf(was)) }) }];
  });
}

const changed = (by: number): number => (Math.abs(by) < same_mm ? 0 : by);
