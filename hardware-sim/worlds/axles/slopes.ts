import type { Cones, SetDrawn } from './cones.ts';
import { type Arrow, inner, less, outer, straight, sum, times, turned } from './space.ts';

export type Flank = 'convex' | 'concave';

/** What one millimetre moved does on one flank, everything taken as straight lines. */
interface Lever {
  /** Normal gap over the whole flank (mm per mm); below 0 where this flank closes and the other opens the more. */
  readonly gap: number;
  /** How that gap changes towards the heel and the crown (1/mm). */
  readonly along: number;
  readonly up: number;
  /** How far relief that sits on the pinion goes with it, to the heel and to the crown (mm per mm). */
  readonly travel: { readonly along: number; readonly up: number };
}

export interface FlankSlopes {
  /** This flank's own angle to the pitch plane (rad). */
  readonly angle: number;
  /** Normal travel for each radian of the ring gear (mm). */
  readonly arm: number;
  readonly pinionOut: Lever;
  readonly ringAway: Lever;
}

/** Place on the tooth where slopes are taken: how far below the pitch line (mm). */
export function flankSlopes(set: SetDrawn, cones: Cones, flank: Flank, below: number): FlankSlopes {
  const surface = surfaceOf(set, cones, flank);
  const [pinionOut, ringAway] = [cones.pinionAxis, times(-1, cones.ringAxis)];
  const side = flank === 'convex' ? 1 : -1;
  const angle = set.pressure + side * cones.limitAngle;
  return {
    angle,
    arm: Math.abs(gapAt(cones, surface(0, -below), pinionOut).arm),
    pinionOut: leverOf(cones, surface, below, pinionOut),
    ringAway: leverOf(cones, surface, below, ringAway),
  };
}

interface Point {
  readonly at: Arrow;
  readonly normal: Arrow;
}
/** A point of the flank by angle round the cutter (rad) and height above the pitch line (mm). */
type Surface = (around: number, height: number) => Point;

/** The cutter's own cone through the mean point; a hobbed flank gets the cone of its trace's curvature. */
function surfaceOf(set: SetDrawn, cones: Cones, flank: Flank): Surface {
  const side = flank === 'convex' ? 1 : -1;
  const angle = set.pressure + side * cones.limitAngle;
  const b = cones.ringSpiral;
  const out: Arrow = [Math.sin(b), Math.cos(b), 0];
  const tooth: Arrow = [Math.cos(b), -Math.sin(b), 0];
  const normal = sum(times(side * Math.cos(angle), out), [0, 0, Math.sin(angle)]);
  const axis = sum(times(Math.cos(set.rootTilt), [0, 0, 1]), times(Math.sin(set.rootTilt), tooth));
  const blade = Math.asin(inner(normal, axis));
  const radial = times(side, straight(less(normal, times(inner(normal, axis), axis))));
  const radius = set.bladeGroups === undefined ? set.cutterRadius : hobbedRadius(set, cones, set.bladeGroups);
  const centre = times(-radius, radial);
  return (around, height) => {
    const ray = turned(radial, axis, around);
    const at = sum(sum(centre, times(radius - side * height * Math.tan(blade), ray)), times(height, axis));
    return { at, normal: sum(times(side * Math.cos(blade), ray), times(Math.sin(blade), axis)) };
  };
}

/** Radius of curvature of the extended epicycloid at the mean point (mm): rolled-trace formula, from memory. */
function hobbedRadius(set: SetDrawn, cones: Cones, groups: number): number {
  const crownTeeth = set.ringTeeth / Math.sin(cones.ringPitch);
  const [cone, beta, radius] = [cones.ringCone, cones.ringSpiral, set.cutterRadius];
  const lead = Math.asin((cone * groups * Math.cos(beta)) / (radius * crownTeeth));
  const machine = Math.sqrt(cone ** 2 + radius ** 2 - 2 * cone * radius * Math.sin(beta - lead));
  const eta = Math.acos((cone * Math.cos(beta) * (crownTeeth + groups)) / (machine * crownTeeth));
  const turn = Math.tan(beta) + Math.tan(eta);
  return cone * Math.cos(beta) * (Math.tan(beta) + Math.tan(eta) / (1 + Math.tan(lead) * turn));
}

/** Gap that a displacement opens where this point comes into mesh, as ring-gear turn (rad per mm), and the arm there. */
function gapAt(cones: Cones, point: Point, moved: Arrow): { readonly gap: number; readonly arm: number } {
  const { ringAxis, ringApex } = cones;
  const from = less(point.at, ringApex);
  const arm = inner(outer(ringAxis, from), point.normal);
  return { gap: inner(moved, turned(point.normal, ringAxis, rollOf(cones, point))) / arm, arm };
}

/** Ring-gear turn at which this point meets its partner: relative velocity without a normal part. */
function rollOf(cones: Cones, point: Point): number {
  const { ringAxis, ringApex, pinionAxis, pinionApex, ratio } = cones;
  const closing = (roll: number): number => {
    const normal = turned(point.normal, ringAxis, roll);
    const at = sum(ringApex, turned(less(point.at, ringApex), ringAxis, roll));
    const ring = outer(ringAxis, less(at, ringApex));
    const pinion = times(-ratio, outer(pinionAxis, less(at, pinionApex)));
    return inner(normal, less(ring, pinion));
  };
  let roll = 0;
  for (let round = 0; round < 8; round += 1) {
    const slope = (closing(roll + 1e-6) - closing(roll - 1e-6)) / 2e-6;
    roll -= closing(roll) / slope;
  }
  return roll;
}

function leverOf(cones: Cones, surface: Surface, below: number, moved: Arrow): Lever {
  const arm = gapAt(cones, surface(0, 0), moved).arm;
  const gap = (point: Point): number => gapAt(cones, point, moved).gap * arm;
  const [turn, rise] = [1e-4, 1e-2];
  const [here, back, on] = [surface(0, -below), surface(-turn, -below), surface(turn, -below)];
  const [down, up] = [surface(0, -below - rise), surface(0, -below + rise)];
  // Along the element and out of the pitch plane, as marks are read.
  const [around, height] = [less(on.at, back.at), less(up.at, down.at)];
  const [byTurn, byRise] = [gap(on) - gap(back), gap(up) - gap(down)];
  const size = around[0] * height[2] - around[2] * height[0];
  return {
    gap: gap(here),
    along: (byTurn * height[2] - byRise * around[2]) / size,
    up: (byRise * around[0] - byTurn * height[0]) / size,
    travel: { along: moved[0], up: moved[2] },
  };
}
