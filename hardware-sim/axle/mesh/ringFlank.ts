import type { Blank } from './blank.ts';
import { NoSuchGear } from './solve.ts';
import { along, cross, dot, minus, plus, unit, type Vector } from './vector.ts';

/** The two flanks by the shape of the ring-gear tooth. */
export type FlankName = 'convex' | 'concave';

/** How the ring gear is cut, both by a cutter that plunges and does not roll (ring gear not generated). */
export type Cut =
  | { readonly kind: 'face-milled'; readonly rootTilt_rad: number }
  | { readonly kind: 'face-hobbed'; readonly bladeGroups: number };

/** A straight blade edge on a cutter head that turns; for face hobbing the gear turns with it. */
interface Sweep {
  readonly centre: Vector;
  readonly axis: Vector;
  /** From the centre to the mean point, square to the axis. */
  readonly arm: Vector;
  /** Along the blade edge, one unit of height. */
  readonly edge: Vector;
  /** Ring-gear turn for one turn of the head. */
  readonly gearTurn: number;
}

/** A ring-gear flank as an explicit surface about the ring-gear axis. */
export interface RingFlank {
  readonly name: FlankName;
  readonly pressure_rad: number;
  readonly sweep: Sweep;
  /** Polar angle (rad) of the flank at distance R from the ring-gear axis and height z along it, mm. */
  polar(R: number, z: number): number;
}

/** Convex −1, concave +1: which way the flank faces along `across`. */
export const facing = (name: FlankName): 1 | -1 => (name === 'convex' ? -1 : 1);

/** Both flanks lie evenly about the limit pressure angle: on a hypoid the convex one is the flatter. */
const pressureAngle = (blank: Blank, mean_rad: number, name: FlankName): number =>
  mean_rad + facing(name) * blank.limitPressure_rad;

/**
 * Face milling: the flank is the cutter's own cone, its axis square to the root plane, which dips towards the heel
 * with the root cone. At the mean point the flank holds the tooth direction and stands at its own pressure angle to
 * the pitch plane; the blade that does so is the steeper to the dipping axis on the convex flank, the flatter on the
 * concave one.
 */
function milledSweep(blank: Blank, pressure: number, side: 1 | -1, tilt: number): Sweep {
  const axis = plus(along(blank.toCrown, Math.cos(tilt)), along(blank.toHeel, Math.sin(tilt)));
  const normal = plus(along(blank.across, side * Math.cos(pressure)), along(blank.toCrown, Math.sin(pressure)));
  const blade = dot(normal, axis);
  // The convex flank is cut by inside blades, whose cone faces away from the axis; the concave by outside blades.
  const outward = along(unit(minus(normal, along(axis, blade))), -side);
  const arm = along(outward, blank.spec.cutterRadius_mm);
  const edge = plus(axis, along(outward, (side * blade) / Math.sqrt(1 - blade ** 2)));
  return { centre: minus(blank.mean, arm), axis, arm, edge, gearTurn: 0 };
}

/**
 * Face hobbing: while the head turns one blade group on, the gear turns one tooth on; the blade leads by the angle at
 * which the two motions together run along the tooth. The trace is an extended epicycloid, the profile straight.
 */
function hobbedSweep(blank: Blank, pressure: number, side: 1 | -1, bladeGroups: number): Sweep {
  const gearTurn = bladeGroups / blank.spec.ringTeeth;
  const radius = blank.spec.cutterRadius_mm;
  const sinLead = (gearTurn * blank.ringMeanRadius_mm * Math.cos(blank.ringSpiral_rad)) / radius;
  if (Math.abs(sinLead) >= 1) throw new NoSuchGear('the cutter head is too small for its blade groups');
  const toCentre = plus(along(blank.across, Math.sqrt(1 - sinLead ** 2)), along(blank.tooth, sinLead));
  const arm = along(toCentre, -radius);
  const edge = minus(blank.toCrown, along(blank.across, side * Math.tan(pressure)));
  return { centre: minus(blank.mean, arm), axis: blank.toCrown, arm, edge, gearTurn };
}

/** One flank of the ring gear, cut. */
export function cutRingFlank(blank: Blank, cut: Cut, meanPressure_rad: number, name: FlankName): RingFlank {
  const pressure = pressureAngle(blank, meanPressure_rad, name);
  const side = facing(name);
  const sweep =
    cut.kind === 'face-milled'
      ? milledSweep(blank, pressure, side, cut.rootTilt_rad)
      : hobbedSweep(blank, pressure, side, cut.bladeGroups);
  return { name, pressure_rad: pressure, sweep, polar: polarOf(sweep, blank) };
}

/** A vector turned about a unit axis is c + a·cos + b·sin, component by component. */
function turned(v: Vector, axis: Vector): { readonly c: Vector; readonly a: Vector; readonly b: Vector } {
  const c = along(axis, dot(v, axis));
  return { c, a: minus(v, c), b: cross(axis, v) };
}

/**
 * Turns the sweep into θ(R, z). At head angle s the blade edge meets height z at one place; the s at which that place
 * lies at distance R is found by Newton's method, so the surface carries no table and no error of one.
 */
function polarOf(sweep: Sweep, blank: Blank): (R: number, z: number) => number {
  const arm = turned(sweep.arm, sweep.axis);
  const edge = turned(sweep.edge, sweep.axis);
  const [cx, cy, cz] = sweep.centre;
  const start = Math.hypot(blank.mean[0], blank.mean[1]);
  const sweepSpeed = cross(sweep.axis, sweep.arm);
  const gearSpeed = along([-blank.mean[1], blank.mean[0], 0], sweep.gearTurn);
  const heelward = dot(minus(sweepSpeed, gearSpeed), blank.toHeel) || 1;
  const reachPerRadius = 1 / (heelward * Math.sin(blank.ringPitch_rad));

  return (R, z) => {
    let s = (R - start) * reachPerRadius;
    let [x, y] = [0, 0];
    for (let turn = 0; turn < 12; turn += 1) {
      const [cos, sin] = [Math.cos(s), Math.sin(s)];
      const ez = edge.c[2] + edge.a[2] * cos + edge.b[2] * sin;
      const dez = edge.b[2] * cos - edge.a[2] * sin;
      const az = cz + arm.c[2] + arm.a[2] * cos + arm.b[2] * sin;
      const h = (z - az) / ez;
      const dh = (-(arm.b[2] * cos - arm.a[2] * sin) - h * dez) / ez;
      const ex = edge.c[0] + edge.a[0] * cos + edge.b[0] * sin;
      const ey = edge.c[1] + edge.a[1] * cos + edge.b[1] * sin;
      x = cx + arm.c[0] + arm.a[0] * cos + arm.b[0] * sin + h * ex;
      y = cy + arm.c[1] + arm.a[1] * cos + arm.b[1] * sin + h * ey;
      const dx = arm.b[0] * cos - arm.a[0] * sin + h * (edge.b[0] * cos - edge.a[0] * sin) + dh * ex;
      const dy = arm.b[1] * cos - arm.a[1] * sin + h * (edge.b[1] * cos - edge.a[1] * sin) + dh * ey;
      const step = (R * R - x * x - y * y) / (2 * (x * dx + y * dy));
      // A point the head cannot reach gets no polar angle rather than a wrong one.
      if (!Number.isFinite(step)) return Number.NaN;
      s += Math.max(-0.2, Math.min(0.2, step));
      if (Math.abs(step) < 1e-13) return Math.atan2(y, x) - sweep.gearTurn * s;
    }
    return Number.NaN;
  };
}
