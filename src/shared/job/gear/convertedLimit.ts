import type { MeshModel } from '../../axle/mesh/meshModel.ts';
import { convertBacklash, type ToothAtIndicator } from '../../measuring/indicatorSetup.ts';
import { type Length, mm, radians } from '../../basics/quantity.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { endsOf, type Limit } from '../records/specSheet.ts';
import { sameBacklashBasis } from '../checks/judge.ts';
import { setOf } from '../../axle/setOf.ts';

/** A limit told on the basis of the readings. It is for looking, and never judges. */
export interface ConvertedLimit {
  readonly limit: Limit;
  readonly min_mm?: number;
  readonly max_mm?: number;
  /** Standard uncertainty of the conversion, as a share: pressure angle and spiral are what is usual, not measured. */
  readonly share: number;
}

/**
 * A backlash limit of another basis, converted to this one.
 * @returns undefined where it is no backlash limit, needs no conversion, or misses the size of the gear for it.
 */
export function convertedLimit(limit: Limit, to: BacklashBasis, makeUp: MakeUp): ConvertedLimit | undefined {
  if (limit.quantity !== 'backlash' && limit.quantity !== 'backlash-variation') return undefined;
  const from = limit.basis;
  if (sameBacklashBasis(from, to)) return undefined;
  if ((from.at !== 'heel' || to.at !== 'heel') && makeUp.outerDiameter_mm === undefined) return undefined;
  const set = setOf(makeUp);
  if (!set.ok) return undefined;
  const tooth = toothOf(set.value);
  const { min, max } = endsOf(limit);
  const told = (end: number): number => convertBacklash(mm(end), from, to, tooth);
  return {
    limit,
    ...(min === undefined ? {} : { min_mm: told(min) }),
    ...(max === undefined ? {} : { max_mm: told(max) }),
    share: from.direction === to.direction ? 0 : assumedShare,
  };
}

/**
 * cos α·cos β for 18 to 22.5° and 30 to 40° lies within ±8 % of that for 20° and 35° (derived); over √3. A radius against
 * the heel needs neither.
 */
const assumedShare = 0.08 / Math.sqrt(3);

/** Flanks of a hypoid have pressure angles of their own; a limit does not say which flank, so it is their middle. */
function toothOf({ blank, flanks, set }: MeshModel): ToothAtIndicator {
  const { convex, concave } = flanks;
  const heelRadius = mm(set.outerDiameter / 2);
  const mean = (convex.spiral.mean + concave.spiral.mean) / 2;
  const heel = (convex.spiral.heel + concave.spiral.heel) / 2;
  const perMm = (heel - mean) / (heelRadius - blank.ringMeanRadius);
  return {
    heelRadius,
    pressureAngle: radians((convex.pressureAngle + concave.pressureAngle) / 2),
    spiralAt: (radius: Length) => radians(heel + (radius - heelRadius) * perMm),
  };
}
