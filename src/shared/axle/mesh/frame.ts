import { type Vector, cross, plus, times } from './vector.ts';
import type { Blank } from './blank.ts';

/**
 * The mean point and its directions in the frame of the mesh: ring-gear axis z with the gear's body on the +z side,
 * pinion axis along x, displaced by the offset along y. Pinion out is +x; the ring gear moving away is, seen by the
 * pinion, −z. A left- or right-hand pair is a mirror of this one and gives the same numbers.
 */
export interface Frame {
  readonly blank: Blank;
  /** The mean point, where both pitch cones touch. */
  readonly mean: Vector;
  /** Out of the ring gear's pitch cone, towards the pinion: up the tooth. */
  readonly up: Vector;
  /** Along the cone element, towards the heel. */
  readonly heelward: Vector;
  /** Round the ring gear, square to the two others. */
  readonly round: Vector;
  /** Any point of the pinion axis. */
  readonly pinionAxis: Vector;
}

export function frameOf(blank: Blank): Frame {
  const { ringPitch, pinionPitch, ringOffsetAngle, ringMeanRadius, pinionMeanRadius } = blank;
  const [cosRing, sinRing] = [Math.cos(ringPitch), Math.sin(ringPitch)];
  const [cosAt, sinAt] = [Math.cos(ringOffsetAngle), Math.sin(ringOffsetAngle)];
  // The common normal through the mean point meets both axes; its length to the pinion axis is r1/cos δ1.
  const toPinionAxis = pinionMeanRadius / Math.cos(pinionPitch);
  const up: Vector = [cosRing * cosAt, cosRing * sinAt, -sinRing];
  const heelward: Vector = [sinRing * cosAt, sinRing * sinAt, cosRing];
  return {
    blank,
    mean: [ringMeanRadius * cosAt, ringMeanRadius * sinAt, toPinionAxis * sinRing],
    up,
    heelward,
    round: cross(up, heelward),
    pinionAxis: [0, blank.offset, 0],
  };
}

/** Place on the tooth seen in its axial section: u along the cone element from the mean point, v up from the pitch cone. */
export function placeOn(frame: Frame, point: Vector): readonly [u: number, v: number] {
  const { ringPitch, ringMeanRadius } = frame.blank;
  const out = Math.hypot(point[0], point[1]) - ringMeanRadius;
  const along = point[2] - frame.mean[2];
  const [c, s] = [Math.cos(ringPitch), Math.sin(ringPitch)];
  return [out * s + along * c, out * c - along * s];
}

/** How place (u, v) changes when a point moves along `tangent`. */
export function placeChange(frame: Frame, point: Vector, tangent: Vector): readonly [number, number] {
  const out = (point[0] * tangent[0] + point[1] * tangent[1]) / Math.hypot(point[0], point[1]);
  const [c, s] = [Math.cos(frame.blank.ringPitch), Math.sin(frame.blank.ringPitch)];
  return [out * s + tangent[2] * c, out * c - tangent[2] * s];
}

/** Direction up the tooth (normal of the ring gear's pitch cone) and along the cone element, where `point` is. */
export function conesAt(frame: Frame, point: Vector): { readonly up: Vector; readonly heelward: Vector } {
  const { ringPitch } = frame.blank;
  const outward = times(1 / Math.hypot(point[0], point[1]), [point[0], point[1], 0]);
  const [c, s] = [Math.cos(ringPitch), Math.sin(ringPitch)];
  return { up: plus(times(c, outward), [0, 0, -s]), heelward: plus(times(s, outward), [0, 0, c]) };
}
