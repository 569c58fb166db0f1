import { type Angle, type Length, mm } from '../basics/quantity.ts';
import type { UncertaintyPart } from './uncertainty/uncertainty.ts';

/** How a backlash was felt or is specified; the form of the records. */
export interface FeltBasis {
  readonly direction: 'along-rotation' | 'square-to-tooth';
  readonly at: 'heel' | { readonly radius_mm: number };
}

/** What converting between bases needs to know of the ring gear. */
export interface ToothAtIndicator {
  /** Radius of the heel end of the teeth, from the ring-gear axis. */
  readonly heelRadius: Length;
  /** Pressure angle of the flank the stem touches; the two flanks of a hypoid differ. */
  readonly pressureAngle: Angle;
  /** Spiral angle at a radius. */
  readonly spiralAt: (radius: Length) => Angle;
}

/**
 * The same free movement told on another basis. What both share is the turn of the ring gear: along rotation a turn θ
 * reads θ·r, square to the tooth it reads θ·r·cos α·cos β.
 */
export const convertBacklash = (value: Length, from: FeltBasis, to: FeltBasis, tooth: ToothAtIndicator): Length =>
  mm((value * readingPerTurn(to, tooth)) / readingPerTurn(from, tooth));

/** Reading per radian of the ring gear. */
function readingPerTurn({ direction, at }: FeltBasis, tooth: ToothAtIndicator): number {
  const radius = at === 'heel' ? tooth.heelRadius : mm(at.radius_mm);
  const square = Math.cos(tooth.pressureAngle) * Math.cos(tooth.spiralAt(radius));
  return direction === 'square-to-tooth' ? radius * square : radius;
}

/**
 * What the tip of the stem does. `rides-flank`: it slides on the slanted flank, the usual case. `follows-point`: it goes
 * along with one place, a ball or a bolt head.
 */
type StemTip = 'rides-flank' | 'follows-point';

export interface Stem {
  readonly tip: StemTip;
  /** Between the stem and the tooth's normal (riding), or the way the point goes (following). */
  readonly angle: Angle;
  /** Standard uncertainty of that angle. */
  readonly angleU?: Angle;
  /** Distance of the tip from the gear's axis, and its standard uncertainty. */
  readonly radius?: Length;
  readonly radiusU?: Length;
}

/**
 * A reading freed from the slant of the stem. A stem riding the flank reads high, normal ÷ cos, so the reading is
 * multiplied by the cosine; one following a fixed point reads low, travel × cos, so it is divided by it.
 */
export const squared = (reading: Length, { tip, angle }: Stem): Length =>
  mm(tip === 'rides-flank' ? reading * Math.cos(angle) : reading / Math.cos(angle));

/** By how much a slanted stem misreads, as a share of what it should read: above 0 high, below 0 low. */
export const misreading = ({ tip, angle }: Stem): number =>
  tip === 'rides-flank' ? 1 / Math.cos(angle) - 1 : Math.cos(angle) - 1;

/**
 * What an angle and a radius that are not known exactly leave open in a value. Near square the slope of the cosine is
 * nothing and its curvature remains: u²/√2 of the value for an angle of standard uncertainty u.
 */
export function stemParts(value: Length, { angle, angleU, radius, radiusU }: Stem): readonly UncertaintyPart[] {
  const size = Math.abs(value);
  const byAngle = angleU === undefined ? 0 : Math.hypot(Math.tan(angle) * angleU, angleU ** 2 / Math.SQRT2);
  const byRadius = radius === undefined || radiusU === undefined ? 0 : radiusU / radius;
  return [
    ...(byAngle === 0 ? [] : [{ name: 'stem angle', u: size * byAngle }]),
    ...(byRadius === 0 ? [] : [{ name: 'stem radius', u: size * byRadius }]),
  ];
}
