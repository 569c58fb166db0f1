import type { MeshModel } from '../../../src/shared/axle/mesh/meshModel.ts';
import type { ShimMovement } from '../../../src/shared/axle/mesh/rates.ts';

/** The textbook formula, [(tan α convex + tan α concave)/cos β2]·sin δ, transverse at the mean radius. */
export function formulaRate(model: MeshModel, movement: ShimMovement): number {
  const { pinionPitch, ringPitch, ringSpiral } = model.blank;
  const opening = [model.flanks.convex, model.flanks.concave].reduce(
    (sum, flank) => sum + Math.tan(flank.pressureAngle),
    0,
  );
  return (opening / Math.cos(ringSpiral)) * Math.sin(movement === 'pinionOut' ? pinionPitch : ringPitch);
}
