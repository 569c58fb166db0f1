import { type Angle, degrees, type Length, mm } from '../../basics/quantity.ts';
import type { SetInput } from './input.ts';

/** How the ring gear's teeth were cut: decides their lengthwise shape and taper. */
type Cut = 'face-milled' | 'face-hobbed';

/** A gear set with a value for everything the blank and the flanks need, and what of it nobody told us. */
export interface CompleteSet {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  readonly outerDiameter: Length;
  readonly faceWidth: Length;
  readonly offset: Length;
  readonly pinionSpiral: Angle;
  readonly pressureAngle: Angle;
  readonly cut: Cut;
  readonly cutKnown: boolean;
  readonly cutterRadius: Length;
  readonly bladeGroups: number;
  readonly rootTilt: Angle;
  /** Keys of the input that were filled in. The offset comes first: most axle sets have one, and 0 is seldom right. */
  readonly assumed: readonly string[];
}

/**
 * Fills what was not read off the parts. Face width and angles are practice; cutter, groups and tilt are assumed
 * round figures (docs/mesh-model.md says how much each matters).
 */
export function completeSet(input: SetInput): CompleteSet {
  const assumed: string[] = [];
  const or = <T>(key: keyof SetInput, given: T | undefined, otherwise: T): T => {
    if (given === undefined) assumed.push(key);
    return given ?? otherwise;
  };
  const offset = or('offset_mm', input.offset_mm, 0);
  const cutKnown = input.cut === 'face-milled' || input.cut === 'face-hobbed';
  if (!cutKnown) assumed.push('cut');
  const hobbed = input.cut === 'face-hobbed';
  return {
    pinionTeeth: input.pinionTeeth,
    ringTeeth: input.ringTeeth,
    outerDiameter: mm(input.outerDiameter_mm),
    faceWidth: mm(or('faceWidth_mm', input.faceWidth_mm, 0.15 * input.outerDiameter_mm)),
    offset: mm(offset),
    pinionSpiral: degrees(or('pinionSpiral_deg', input.pinionSpiral_deg, offset === 0 ? 35 : 48)),
    pressureAngle: degrees(or('pressureAngle_deg', input.pressureAngle_deg, 20)),
    cut: hobbed ? 'face-hobbed' : 'face-milled',
    cutKnown,
    cutterRadius: mm(or('cutterRadius_mm', input.cutterRadius_mm, (hobbed ? 0.4 : 0.5) * input.outerDiameter_mm)),
    bladeGroups: hobbed ? or('bladeGroups', input.bladeGroups, 17) : 0,
    rootTilt: degrees(or('rootTilt_deg', input.rootTilt_deg, hobbed ? 0 : 4.5)),
    assumed,
  };
}
