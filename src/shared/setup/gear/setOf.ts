import { describeSet, type MeshModel } from '../../gears/meshModel.ts';
import type { MakeUp } from '../../records/makeUp.ts';
import type { Result } from '../../result.ts';

/** Rates and angles are the same for a set of any size, so that one without a diameter is looked at in this (mm). */
const anyDiameter_mm = 200;

/** The mesh of an axle as far as its make-up tells: teeth, diameter and cut; everything else is what is usual. */
export const setOf = ({ pinionTeeth, ringTeeth, outerDiameter_mm, cut }: MakeUp): Result<MeshModel> =>
  describeSet({ pinionTeeth, ringTeeth, outerDiameter_mm: outerDiameter_mm ?? anyDiameter_mm, cut });
