import type { Flank } from '../mark/mark.ts';
import { contactEllipse } from './easeoff.ts';
import { squareToTooth } from './evaluate.ts';
import { middlePoint } from './flankGrid.ts';
import type { FlankModel } from './flankModel.ts';
import { eachFlank, type MeshModel } from './meshModel.ts';

/** The two movements a shim makes. */
export type ShimMovement = 'pinionOut' | 'ringAway';

/** Backlash change for each mm moved, on every basis it is read on. */
export interface BacklashRate {
  readonly transverseMean: number;
  readonly transverseHeel: number;
  readonly normalMean: Readonly<Record<Flank, number>>;
  readonly normalHeel: Readonly<Record<Flank, number>>;
}

/**
 * Backlash rate from both flank surfaces at the mean point: each flank's normal gap, turned to the rotation by its own
 * angle and β2. This is the textbook formula for both cuts and both movements, and so is {@link turnRate}, which goes
 * by levers instead (tests/published/gears).
 */
export function backlashRate(model: MeshModel, movement: ShimMovement): BacklashRate {
  const opened = eachFlank(model).map((flank) => flank.atPitchPoint[movement].gap / squareToTooth(flank, 'mean'));
  return spread(
    model,
    opened.reduce((sum, part) => sum + part, 0),
  );
}

/**
 * The same at the mean point, from the free turn itself: each flank's gap by its own lever (mm at the mean radius for
 * each mm moved). This is what {@link evaluate} tends to when both flanks touch on the pitch line.
 */
export function turnRate(model: MeshModel, movement: ShimMovement): number {
  const turn = eachFlank(model).reduce(
    (sum, flank) => sum + flank.atPitchPoint[movement].gap / Math.abs(flank.lever),
    0,
  );
  return turn * model.blank.ringMeanRadius;
}

function spread(model: MeshModel, transverseMean: number): BacklashRate {
  const transverseHeel = (transverseMean * model.blank.ringOuterCone) / model.blank.ringMeanCone;
  const normal = (size: number, at: 'mean' | 'heel'): Record<Flank, number> => ({
    convex: size * squareToTooth(model.flanks.convex, at),
    concave: size * squareToTooth(model.flanks.concave, at),
  });
  return {
    transverseMean,
    transverseHeel,
    normalMean: normal(transverseMean, 'mean'),
    normalHeel: normal(transverseHeel, 'heel'),
  };
}

/** Movement of a mark's centre for each mm moved, mm along the face and up the flank, for a small movement. */
interface MarkRate {
  readonly heel: number;
  readonly crown: number;
}

/**
 * Slopes at mid flank, where the ease-off has its apex, turned into a shift of the contact ellipse; less how far the
 * relief met there has travelled with the pinion. This is what {@link evaluate} tends to for small movements.
 */
export function markRate(flank: FlankModel, movement: ShimMovement): MarkRate {
  const { a, b, c } = flank.easeoff;
  const { slopeU, slopeV } = flank.atMidFlank[movement];
  const { centre } = contactEllipse({ gap: 0, slopeU, slopeV, a, b, c }, 0);
  const { partnerU, partnerV } = flank.grid[movement];
  return { heel: centre.u - (partnerU[middlePoint] ?? NaN), crown: centre.v - (partnerV[middlePoint] ?? NaN) };
}
