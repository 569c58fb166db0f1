import type { Mark } from '../../axle/mark/mark.ts';
import { type Assembly, type Build, latest } from '../records/build.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import { type MarkResult, markPlaces } from '../records/markResult.ts';
import type { BacklashResult } from '../records/measurement.ts';
import { isNone } from '../../basics/result.ts';
import type { Side, TrialSeen } from '../../axle/plan/input.ts';
import { roundGear } from '../../axle/plan/roundGear.ts';

/** Trials and final assemblies that have their backlash and both marks, and so have something to teach, in their order. */
export const completeAssemblies = (build: Build): readonly Assembly[] =>
  build.assemblies.filter((assembly) => setWithShims(assembly) && seenIn(assembly) !== undefined);

/** Put together here, with packs that were measured: an axle as found stood on packs nobody had in hand yet. */
export const setWithShims = ({ phase }: Assembly): boolean => phase === 'trial' || phase === 'final';

/** What one assembly has shown, as the plan wants it. */
interface SeenIn {
  readonly basis: BacklashBasis;
  readonly backlash: TrialSeen['backlash'];
  readonly pattern: TrialSeen['pattern'];
}

export function seenIn(assembly: Assembly): SeenIn | undefined {
  const read = latest(assembly, 'backlash')?.result;
  const marks = marksOf(assembly);
  if (read?.kind !== 'backlash' || marks === undefined) return undefined;
  const backlash = backlashOf(read);
  return backlash === undefined ? undefined : { basis: read.basis, backlash, pattern: marks };
}

export function backlashOf(read: BacklashResult): TrialSeen['backlash'] | undefined {
  const { mean_mm, min_mm, max_mm } = read;
  if (isNone(mean_mm) || isNone(min_mm) || isNone(max_mm)) return undefined;
  const doubts = read.stations.flatMap(({ U95_mm }) => (isNone(U95_mm) ? [] : [U95_mm]));
  return { mean_mm, min_mm, max_mm, ...(doubts.length === 0 ? {} : { U95_mm: Math.min(1, Math.max(...doubts)) }) };
}

/** Both marks of an assembly, where both were seen: all places round the gear together, the first one to go by. */
export function marksOf(assembly: Assembly): TrialSeen['pattern'] | undefined {
  const result = latest(assembly, 'mark')?.result;
  return result?.kind === 'mark' ? bothOf(result) : undefined;
}

function bothOf(result: MarkResult): TrialSeen['pattern'] | undefined {
  const { drive, coast } = result;
  if (isNone(drive) || isNone(coast)) return undefined;
  const further = markPlaces(result).slice(1);
  const more = (side: Side): readonly Mark[] => further.flatMap((place) => (isNone(place[side]) ? [] : [place[side]]));
  return { drive: roundGear([drive, ...more('drive')]), coast: roundGear([coast, ...more('coast')]) };
}
