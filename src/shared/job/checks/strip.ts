import { type Assembly, type Build, latest, packAt, swapOf } from '../records/build.ts';
import { insideOf } from '../../basics/recorded.ts';
import { shimPlaces, type ShimPlace, shimPlacesOf } from '../../axle/makeUp.ts';
import type { ExpectedSeen } from '../records/swap.ts';
import { packThickness, pinionOutFor, ringAwayByPacks } from '../planning/positions.ts';
import type { BacklashResult, MarkResult, ShimPack } from '../records/measurement.ts';

/** The pack at one place, and by how much it differs from the one before. */
interface StripPack {
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
  /** Where pinion and ring gear stand since the first trial, as far as the packs tell (mm). */
  readonly moved?: StripMoved;
  /** What its swap card expected to be seen. */
  readonly expected?: ExpectedSeen;
}

export interface StripMoved {
  readonly pinionOut_mm?: number;
  readonly ringAway_mm?: number;
}

/** Smaller than a micrometer tells apart. */
const same_mm = 0.0005;

/** Every putting-together of the axle, in order, with what was changed and what came of it. */
export function stripOf(build: Build): readonly StripEntry[] {
  const first = build.assemblies.find(({ phase }) => phase === 'trial');
  return build.assemblies.map((assembly, n) => {
    const backlash = latest(assembly, 'backlash')?.result;
    const mark = latest(assembly, 'mark')?.result;
    return {
      assembly,
      packs: packsOf(build, assembly, build.assemblies.slice(0, n)),
      ...(backlash?.kind === 'backlash' ? { backlash } : {}),
      ...(mark?.kind === 'mark' ? { mark } : {}),
      ...since(build, first, assembly),
      ...expectedOf(build, assembly),
    };
  });
}

function expectedOf(build: Build, assembly: Assembly): Pick<StripEntry, 'expected'> {
  const expected = swapOf(build, assembly)?.expected;
  return expected === undefined ? {} : { expected };
}

/** Trials are compared with the first of them: between others the bearings differ, and packs do not tell places. */
function since(build: Build, first: Assembly | undefined, trial: Assembly): Pick<StripEntry, 'moved'> {
  const { makeUp } = build;
  if (makeUp === undefined || first === undefined || trial.phase !== 'trial' || trial === first) return {};
  const [before, after] = [packThickness(first, 'pinion-depth'), packThickness(trial, 'pinion-depth')];
  const ringAway_mm = ringAwayByPacks(makeUp, first, trial);
  const moved: StripMoved = {
    ...(before === undefined || after === undefined
      ? {}
      : { pinionOut_mm: changed(pinionOutFor(makeUp, after - before)) }),
    ...(ringAway_mm === undefined ? {} : { ringAway_mm: changed(ringAway_mm) }),
  };
  return Object.keys(moved).length === 0 ? {} : { moved };
}

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
