import { caseIsTight } from '../checks/caseTight.ts';
import { type Build, latest } from '../records/build.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { endsOf, type Limit } from '../records/specSheet.ts';
import { ok, type Result } from '../../basics/result.ts';
import { convertedLimit } from '../gear/convertedLimit.ts';
import { sameBacklashBasis } from '../checks/judge.ts';
import type { PlanTarget } from '../../axle/plan/input.ts';
import { missing } from './missing.ts';
import { backlashOf, marksOf } from './seen.ts';

/** The backlash window on the basis the readings were taken on. */
export function windowOf(
  build: Build,
  makeUp: MakeUp,
  basis: BacklashBasis,
): Result<{ readonly ends: [number, number]; readonly notes: readonly string[] }, 'no-window'> {
  const limits = (build.specSheet?.limits ?? []).filter(({ quantity }) => quantity === 'backlash');
  const own = limits.find((limit) => limit.quantity === 'backlash' && sameBacklashBasis(limit.basis, basis));
  const [min, max] = own === undefined ? convertedEnds(limits[0], basis, makeUp) : [endsOf(own).min, endsOf(own).max];
  if (min === undefined || max === undefined || !(min < max)) {
    return missing('no-window', 'The backlash window is not entered with both its ends.', 'Enter it under Limits.');
  }
  const notes =
    own === undefined
      ? ['The backlash window is converted from the way it was printed to the way it was felt here.']
      : [];
  return ok({ ends: [min, max], notes });
}

function convertedEnds(
  limit: Limit | undefined,
  basis: BacklashBasis,
  makeUp: MakeUp,
): readonly (number | undefined)[] {
  const converted = limit === undefined ? undefined : convertedLimit(limit, basis, makeUp);
  return [converted?.min_mm, converted?.max_mm];
}

/** A new set is centred; a used one goes back to the marks it came with, and to the backlash it ran with if its bearings were tight. */
export function targetOf(
  build: Build,
  makeUp: MakeUp,
  basis: BacklashBasis,
): Result<{ readonly target: PlanTarget; readonly notes: readonly string[] }, 'no-target'> {
  if (makeUp.gearSet === 'new') return ok({ target: { kind: 'new-set' }, notes: [] });
  const found = build.assemblies.findLast(({ phase }) => phase === 'as-found');
  const marks = found === undefined ? undefined : marksOf(found);
  if (found === undefined || marks === undefined) {
    return missing(
      'no-target',
      'A used set goes back to the marks it came with, and they were not recorded.',
      'Draw both marks as found, or the worn places that show them.',
    );
  }
  const read = latest(found, 'backlash')?.result;
  const tight = caseIsTight(latest(found, 'case-tight')?.result);
  const felt = read?.kind === 'backlash' && sameBacklashBasis(read.basis, basis) ? backlashOf(read) : undefined;
  const own = tight === true ? felt?.mean_mm : undefined;
  const notes =
    own === undefined
      ? ['The backlash as found is not a target: it was not felt in the same way with tight case bearings.']
      : [];
  return ok({
    target: { kind: 'used-set', ...marks, ...(own === undefined ? {} : { backlash_mm: Math.max(0, own) }) },
    notes,
  });
}
