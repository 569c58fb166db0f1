import { type Angle, type Length, mm, radians } from '../../basics/quantity.ts';

/** The pitch cones of a pair with shafts at 90°, at the mean point. 1 = pinion, 2 = ring gear throughout this room. */
export interface Blank {
  readonly kind: 'spiral-bevel' | 'hypoid';
  /** Ring-gear teeth for each pinion tooth. */
  readonly ratio: number;
  readonly pinionPitch: Angle;
  readonly ringPitch: Angle;
  readonly pinionSpiral: Angle;
  readonly ringSpiral: Angle;
  readonly pinionMeanRadius: Length;
  readonly ringMeanRadius: Length;
  readonly ringMeanCone: Length;
  readonly ringOuterCone: Length;
  readonly offset: Length;
  /** Where the mean point sits round the ring-gear axis, from the pinion's side: 0 without offset. */
  readonly ringOffsetAngle: Angle;
  /** Between the two cone elements in the pitch plane: β1 − β2. */
  readonly pitchPlaneOffsetAngle: Angle;
  /** Added to the design pressure angle on the convex flank, taken off on the concave one; never positive here. */
  readonly limitPressure: Angle;
  /** The cutter radius these cones are right for, where there is one. */
  readonly limitRadius: Length | undefined;
}

export interface BlankInput {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  readonly outerDiameter: Length;
  readonly faceWidth: Length;
  readonly offset: Length;
  readonly pinionSpiral: Angle;
}

/** Spiral bevel cones, no offset (ISO 23509 Method 0, from memory, text not seen). */
export function spiralBevelBlank(input: BlankInput): Blank {
  const ratio = input.ringTeeth / input.pinionTeeth;
  const ringPitch = Math.atan(ratio);
  const outerCone = input.outerDiameter / (2 * Math.sin(ringPitch));
  const meanCone = outerCone - input.faceWidth / 2;
  return {
    kind: 'spiral-bevel',
    ratio,
    pinionPitch: radians(Math.PI / 2 - ringPitch),
    ringPitch: radians(ringPitch),
    pinionSpiral: input.pinionSpiral,
    ringSpiral: input.pinionSpiral,
    pinionMeanRadius: mm(meanCone * Math.cos(ringPitch)),
    ringMeanRadius: mm(meanCone * Math.sin(ringPitch)),
    ringMeanCone: mm(meanCone),
    ringOuterCone: mm(outerCone),
    offset: mm(0),
    ringOffsetAngle: radians(0),
    pitchPlaneOffsetAngle: radians(0),
    limitPressure: radians(0),
    limitRadius: undefined,
  };
}
