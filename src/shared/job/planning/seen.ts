import type { Mark } from '../../axle/mark/mark.ts';
import { type Assembly, type Build, latest } from '../records/build.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { BacklashResult, MarkResult } from '../records/measurement.ts';
import { isNone } from '../../basics/result.ts';
import type { TrialSeen } from '../../axle/plan/input.ts';

/** Trials that have their backlash and both marks, and so have something to teach. */
export const completeTrials = (build: Build): readonly Assembly[] =>
  build.assemblies.filter((assembly) => assembly.phase === 'trial' && seenIn(assembly) !== undefined);

/** What one trial has shown, as the plan wants it. */
export interface SeenInTrial {
  readonly basis: BacklashBasis;
  readonly backlash: TrialSeen['backlash'];
  readonly pattern: TrialSeen['pattern'];
}

export function seenIn(assembly: Assembly): SeenInTrial | undefined {
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

/** Both marks of an assembly, where both were seen. */
export function marksOf(assembly: Assembly): { readonly drive: Mark; readonly coast: Mark } | undefined {
  const result = latest(assembly, 'mark')?.result;
  return result?.kind === 'mark' ? bothOf(result) : undefined;
}

function bothOf({ drive, coast }: MarkResult): { readonly drive: Mark; readonly coast: Mark } | undefined {
  return isNone(drive) || isNone(coast) ? undefined : { drive, coast };
}
