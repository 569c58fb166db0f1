import type { SetInput } from './mesh/input.ts';
import { describeSet, type MeshModel } from './mesh/meshModel.ts';
import type { MakeUp } from './makeUp.ts';
import type { Result } from '../basics/result.ts';

/** Rates and angles are the same for a set of any size, so that one without a diameter is looked at in this (mm). */
const anyDiameter_mm = 200;

/** The mesh of an axle as far as its make-up tells; everything else is what is usual. */
export const setOf = (makeUp: MakeUp): Result<MeshModel> =>
  describeSet(setInputOf(makeUp, makeUp.outerDiameter_mm ?? anyDiameter_mm));

/** What the make-up tells of the gear set, without what nobody read off. */
export function setInputOf(makeUp: MakeUp, outerDiameter_mm: number): SetInput {
  const { pinionTeeth, ringTeeth, cut, faceWidth_mm, offset_mm, pinionSpiral_deg, pressureAngle_deg } = makeUp;
  return {
    pinionTeeth,
    ringTeeth,
    outerDiameter_mm,
    cut,
    ...(faceWidth_mm === undefined ? {} : { faceWidth_mm }),
    ...(offset_mm === undefined ? {} : { offset_mm }),
    ...(pinionSpiral_deg === undefined ? {} : { pinionSpiral_deg }),
    ...(pressureAngle_deg === undefined ? {} : { pressureAngle_deg }),
  };
}
