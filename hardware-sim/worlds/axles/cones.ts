import { type Arrow, inner, less, outer, times } from './space.ts';

/** A gear set as it could be read off the parts; lengths mm, angles rad. */
export interface SetDrawn {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  readonly outerDiameter: number;
  readonly faceWidth: number;
  readonly offset: number;
  readonly pinionSpiral: number;
  readonly pressure: number;
  readonly cutterRadius: number;
  /** Groups of blades of a face-hobbing cutter; face-milled without. */
  readonly bladeGroups?: number;
  /** Between pitch and root plane; 0 on face-hobbed teeth. */
  readonly rootTilt: number;
}

/**
 * Both pitch cones in the frame of their common plane: origin at the mean point, x along the ring gear's element to
 * the heel, z out of the ring gear, y across.
 */
export interface Cones {
  readonly ratio: number;
  readonly ringPitch: number;
  readonly pinionPitch: number;
  readonly ringSpiral: number;
  /** Between the two cones' elements in the plane. */
  readonly between: number;
  readonly ringCone: number;
  readonly ringRadius: number;
  readonly limitAngle: number;
  readonly limitRadius: number;
  readonly ringApex: Arrow;
  readonly pinionApex: Arrow;
  readonly ringAxis: Arrow;
  readonly pinionAxis: Arrow;
}

/** A draw for which no cones close. */
export class NoCones extends Error {}

/**
 * Cones whose shafts stand at 90° with the wanted offset, and whose limit curvature is the cutter's radius. Limit angle
 * and limit radius after the common hypoid practice (from memory); the six limit angles of the derivation hold to 1e-4 rad.
 */
export function conesOf(set: SetDrawn): Cones {
  if (set.offset === 0) return conesAt(set, 0, Math.atan(set.ringTeeth / set.pinionTeeth));
  let ringPitch = Math.atan(set.ringTeeth / set.pinionTeeth / 1.2);
  let between = Math.asin((set.offset * Math.sin(ringPitch) * 2) / (set.outerDiameter - set.faceWidth));
  for (let round = 0; round < 60; round += 1) {
    const misses = (b: number, p: number): readonly [number, number] => {
      const { cones, offset } = withOffset(set, b, p);
      return [offset / set.offset - 1, cones.limitRadius / set.cutterRadius - 1];
    };
    const here = misses(between, ringPitch);
    if (Math.max(Math.abs(here[0]), Math.abs(here[1])) < 1e-9) return conesAt(set, between, ringPitch);
    const tiny = 1e-6;
    const [byB, byP] = [misses(between + tiny, ringPitch), misses(between, ringPitch + tiny)];
    const [a, b] = [(byB[0] - here[0]) / tiny, (byP[0] - here[0]) / tiny];
    const [c, d] = [(byB[1] - here[1]) / tiny, (byP[1] - here[1]) / tiny];
    const size = a * d - b * c;
    between -= held((d * here[0] - b * here[1]) / size);
    ringPitch -= held((a * here[1] - c * here[0]) / size);
  }
  throw new NoCones('no cones for this cutter and offset');
}

const held = (step: number): number => Math.max(-0.03, Math.min(0.03, step));

function withOffset(set: SetDrawn, between: number, ringPitch: number) {
  const cones = conesAt(set, between, ringPitch);
  const apart = less(cones.pinionApex, cones.ringApex);
  return { cones, offset: Math.abs(inner(apart, outer(cones.pinionAxis, cones.ringAxis))) };
}

function conesAt(set: SetDrawn, between: number, ringPitch: number): Cones {
  const pinionPitch = Math.atan(Math.cos(between) / Math.tan(ringPitch));
  const [ringSpiral, pinionSpiral] = [set.pinionSpiral - between, set.pinionSpiral];
  const ringRadius = set.outerDiameter / 2 - (set.faceWidth / 2) * Math.sin(ringPitch);
  const ringCone = ringRadius / Math.sin(ringPitch);
  const ratio = set.ringTeeth / set.pinionTeeth;
  const pinionCone = (ringRadius * Math.cos(ringSpiral)) / (ratio * Math.cos(pinionSpiral) * Math.sin(pinionPitch));
  const element: Arrow = [Math.cos(between), Math.sin(between), 0];
  const limit = limitsOf({ ringCone, pinionCone, ringPitch, pinionPitch, ringSpiral, pinionSpiral, between });
  return {
    ratio,
    ringPitch,
    pinionPitch,
    ringSpiral,
    between,
    ringCone,
    ringRadius,
    ...limit,
    ringApex: [-ringCone, 0, 0],
    pinionApex: times(-pinionCone, element),
    ringAxis: [Math.cos(ringPitch), 0, -Math.sin(ringPitch)],
    pinionAxis: [Math.cos(pinionPitch) * element[0], Math.cos(pinionPitch) * element[1], Math.sin(pinionPitch)],
  };
}

interface Drawn {
  readonly ringCone: number;
  readonly pinionCone: number;
  readonly ringPitch: number;
  readonly pinionPitch: number;
  readonly ringSpiral: number;
  readonly pinionSpiral: number;
  readonly between: number;
}

function limitsOf(d: Drawn): { readonly limitAngle: number; readonly limitRadius: number } {
  if (d.between === 0) return { limitAngle: 0, limitRadius: Number.POSITIVE_INFINITY };
  const [t1, t2] = [Math.tan(d.pinionPitch), Math.tan(d.ringPitch)];
  const tangent =
    ((-t1 * t2) / Math.cos(d.between)) *
    ((d.pinionCone * Math.sin(d.pinionSpiral) - d.ringCone * Math.sin(d.ringSpiral)) /
      (d.pinionCone * t1 + d.ringCone * t2));
  const [s1, s2] = [Math.tan(d.pinionSpiral), Math.tan(d.ringSpiral)];
  const under =
    -tangent * (s1 / (d.pinionCone * t1) + s2 / (d.ringCone * t2)) +
    1 / (d.pinionCone * Math.cos(d.pinionSpiral)) -
    1 / (d.ringCone * Math.cos(d.ringSpiral));
  return { limitAngle: Math.atan(tangent), limitRadius: (Math.sqrt(1 + tangent * tangent) * (s1 - s2)) / under };
}
