import { type Assembly, assemblyName, type Build, latest, type Measurement, packAt } from '../records/build.ts';
import { type ShimPlace, shimPlaces } from '../../axle/makeUp.ts';
import type { ShimPack } from '../records/measurement.ts';
import { type CheckId, checkIds } from '../records/checkIds.ts';

/** One of two builds, and the other. */
export interface Pair<T> {
  readonly one: T | undefined;
  readonly other: T | undefined;
}

/** One putting-together of either build: "As found", "Trial 1", … with everything measured in either. */
export interface ComparedAssembly {
  readonly name: string;
  readonly assemblies: Pair<Assembly>;
  readonly packs: readonly ({ readonly place: ShimPlace } & Pair<ShimPack>)[];
  readonly checks: readonly ({ readonly check: CheckId } & Pair<Measurement>)[];
}

/** Two builds side by side, as found first and final last; what neither has is left out. */
export function compared(one: Build, other: Build): readonly ComparedAssembly[] {
  return namesIn(one, other).map((name) => {
    const assemblies = { one: called(one, name), other: called(other, name) };
    return { name, assemblies, packs: packsOf(assemblies), checks: checksOf(assemblies) };
  });
}

const phases = ['as-found', 'stripping', 'trial', 'final'] as const;

/** Every name either build has, by phase and number. */
function namesIn(one: Build, other: Build): readonly string[] {
  const all = [...one.assemblies, ...other.assemblies].toSorted(
    (a, b) => phases.indexOf(a.phase) - phases.indexOf(b.phase) || a.number - b.number,
  );
  return [...new Set(all.map(assemblyName))];
}

const called = (build: Build, name: string): Assembly | undefined =>
  build.assemblies.find((assembly) => assemblyName(assembly) === name);

function packsOf({ one, other }: Pair<Assembly>): ComparedAssembly['packs'] {
  const pack = (assembly: Assembly | undefined, place: ShimPlace): ShimPack | undefined =>
    assembly === undefined ? undefined : packAt(assembly, place);
  return shimPlaces
    .map((place) => ({ place, one: pack(one, place), other: pack(other, place) }))
    .filter((row) => row.one !== undefined || row.other !== undefined);
}

/** Shims stand by their places instead. */
function checksOf({ one, other }: Pair<Assembly>): ComparedAssembly['checks'] {
  const read = (assembly: Assembly | undefined, check: CheckId): Measurement | undefined =>
    assembly === undefined ? undefined : latest(assembly, check);
  return checkIds
    .filter((check) => check !== 'shims')
    .map((check) => ({ check, one: read(one, check), other: read(other, check) }))
    .filter((row) => row.one !== undefined || row.other !== undefined);
}
