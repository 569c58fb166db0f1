import type { MeshModel } from '../../axle/mesh/meshModel.ts';
import { backlashRate } from '../../axle/mesh/rates.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { none, type OrNone } from '../../basics/result.ts';
import { setOf } from '../../axle/setOf.ts';

/** Change of backlash for each mm of back-face runout read, with its standard uncertainty. */
interface Rate {
  readonly perMm: number;
  readonly u: number;
}

/**
 * What the mesh makes of a back face that runs out: where it comes towards its indicator the teeth go away from the
 * pinion, and the backlash opens by the rate of a ring gear moved away.
 *
 * A wobbling face moves more further out. Where nobody noted the radius of the stem, it stood between the middle of the
 * teeth and the edge of the gear.
 *
 * @param stem_mm distance of the stem from the axis of the ring gear
 */
export function runoutToBacklash(
  makeUp: MakeUp,
  basis: BacklashBasis,
  stem_mm?: number,
): OrNone<Rate, 'no-size' | 'no-such-set'> {
  if (basis.at !== 'heel' && makeUp.outerDiameter_mm === undefined) return none('no-size');
  const set = setOf(makeUp);
  if (!set.ok) return none('no-such-set');
  const opening = openingOn(set.value, basis);
  const lever = leverTo(set.value, makeUp.outerDiameter_mm === undefined ? undefined : stem_mm);
  const share = Math.hypot(assumedShare, opening.u / opening.perMm, lever.u / lever.perMm);
  const perMm = opening.perMm * lever.perMm;
  return { perMm, u: perMm * share };
}

/**
 * A make-up leaves pressure angle, spiral and offset to what is usual. Taken from 18 to 22.5°, 30 to 40°, and 0 to 0.18 of
 * the diameter they move the rate by up to ±14, ±7 and ±10 % (derived with the mesh model; a test holds it to that); over
 * √3 each, together about a tenth.
 */
const assumedShare = 0.11;

/** Backlash opened by each mm the ring gear moves away, on this basis; the two flanks differ where it is square to one. */
function openingOn(model: MeshModel, { direction, at }: BacklashBasis): Rate {
  const rate = backlashRate(model, 'ringAway');
  const place = at === 'heel' ? 1 : at.radius_mm / model.blank.ringMeanRadius;
  if (direction === 'along-rotation')
    return { perMm: (at === 'heel' ? rate.transverseHeel : rate.transverseMean) * place, u: 0 };
  const { convex, concave } = at === 'heel' ? rate.normalHeel : rate.normalMean;
  return { perMm: ((convex + concave) / 2) * place, u: (Math.abs(convex - concave) / 2 / Math.sqrt(3)) * place };
}

/** Movement at the middle of the teeth for each mm under the stem. */
function leverTo({ blank, set }: MeshModel, stem_mm: number | undefined): Rate {
  if (stem_mm !== undefined) return { perMm: blank.ringMeanRadius / stem_mm, u: 0 };
  const least = blank.ringMeanRadius / (set.outerDiameter / 2);
  return { perMm: (least + 1) / 2, u: (1 - least) / 2 / Math.sqrt(3) };
}
