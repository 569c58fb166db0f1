import { rootOfTwo } from './solve.ts';
import { along, cross, dot, minus, norm, plus, unit, type Vector } from './vector.ts';

/** What is drawn of a gear set before any tooth is cut. Axes at 90°, lengths mm, angles rad. */
export interface BlankSpec {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  readonly outerDiameter_mm: number;
  readonly faceWidth_mm: number;
  /** Pinion axis beside the ring-gear axis; 0 for a spiral bevel set. */
  readonly offset_mm: number;
  /** Mean pinion spiral angle (at offset 0 that of both gears). */
  readonly pinionSpiral_rad: number;
  readonly cutterRadius_mm: number;
}

/**
 * The mean point of the mesh and the directions that stand on it, in the mesh frame at roll 0.
 * `toHeel` runs along the ring-gear pitch cone, `toCrown` square to it out of the ring gear, `tooth` along the tooth
 * to the heel, `across` square to the tooth in the pitch plane, to the side of the cutter's centre.
 */
export interface Blank {
  readonly spec: BlankSpec;
  readonly ratio: number;
  readonly mean: Vector;
  readonly toHeel: Vector;
  readonly toCrown: Vector;
  readonly tooth: Vector;
  readonly across: Vector;
  /** y of the pinion axis: the offset, to the side that makes the pinion's spiral the larger. */
  readonly pinionAxisY_mm: number;
  readonly pinionPitch_rad: number;
  readonly ringPitch_rad: number;
  readonly pinionSpiral_rad: number;
  readonly ringSpiral_rad: number;
  readonly ringMeanRadius_mm: number;
  readonly pinionMeanRadius_mm: number;
  /** The pressure angle about which both flanks lie evenly: 0 without offset. */
  readonly limitPressure_rad: number;
  readonly workingDepth_mm: number;
  readonly ringAddendum_mm: number;
}

const X: Vector = [1, 0, 0];
const Z: Vector = [0, 0, 1];

/** A mean point on the ring-gear pitch cone at this angle round the gear, and the pitch plane through it. */
function stand(spec: BlankSpec, around: number, ringPitch: number) {
  const radius = spec.outerDiameter_mm / 2 - (spec.faceWidth_mm / 2) * Math.sin(ringPitch);
  const radial: Vector = [Math.cos(around), Math.sin(around), 0];
  const toCrown = plus(along(radial, Math.cos(ringPitch)), along(Z, -Math.sin(ringPitch)));
  const toHeel = plus(along(radial, Math.sin(ringPitch)), along(Z, Math.cos(ringPitch)));
  return { radius, radial, toCrown, toHeel };
}

/**
 * Hypoid candidate: the pitch plane touches both pitch cones only if its normal meets both axes, which fixes the
 * height of the mean point; the teeth there can only run along the sliding.
 */
function hypoidStand(spec: BlankSpec, around: number, ringPitch: number) {
  const base = stand(spec, around, ringPitch);
  const ratio = spec.ringTeeth / spec.pinionTeeth;
  const height = Math.tan(ringPitch) * (spec.offset_mm / Math.sin(around) - base.radius);
  const mean = plus(along(base.radial, base.radius), along(Z, height));
  const arm: Vector = [0, mean[1] - spec.offset_mm, mean[2]];
  const pinionSpin = along(X, -ratio);
  const pinionVelocity = cross(pinionSpin, arm);
  const ringVelocity = cross(Z, mean);
  const sliding = minus(pinionVelocity, ringVelocity);
  const tooth = along(unit(sliding), Math.sign(dot(sliding, base.toHeel)));
  const sinPitch = base.toCrown[0];
  const pinionHeel = plus(along(X, Math.sqrt(1 - sinPitch ** 2)), along(unit(arm), sinPitch));
  const across = cross(tooth, base.toCrown);
  const turning = minus(pinionSpin, Z);
  // The limit normal: square to the sliding, with the meshing condition standing still in time.
  const stillness = minus(cross(pinionSpin, ringVelocity), cross(Z, pinionVelocity));
  const found = unit(cross(tooth, stillness));
  const limitNormal = along(found, Math.sign(dot(found, across)));
  return {
    ...base,
    mean,
    tooth,
    across,
    pinionMeanRadius_mm: norm(arm),
    pinionPitch_rad: Math.asin(sinPitch),
    pinionSpiral_rad: Math.acos(dot(tooth, pinionHeel)),
    ringSpiral_rad: Math.acos(dot(tooth, base.toHeel)),
    limitPressure_rad: Math.asin(dot(limitNormal, base.toCrown)),
    /** Lengthwise curvature (1/mm) that keeps a tooth with that normal in touch along its length. */
    limitCurvature: dot(limitNormal, cross(turning, tooth)) / dot(sliding, tooth),
  };
}

/** Searches the mean point where the pinion's spiral is as drawn and the cutter bends the tooth as the mesh wants it. */
function hypoidMean(spec: BlankSpec) {
  const ratio = spec.ringTeeth / spec.pinionTeeth;
  const pitchGuess = Math.atan(ratio / 1.2);
  const radius = spec.outerDiameter_mm / 2 - (spec.faceWidth_mm / 2) * Math.sin(pitchGuess);
  const aroundGuess = Math.asin(spec.offset_mm / (radius + (1.2 * radius) / ratio / Math.tan(pitchGuess)));
  const misfit = (around: number, pitch: number): readonly [number, number] => {
    const trial = hypoidStand(spec, around, pitch);
    return [trial.pinionSpiral_rad - spec.pinionSpiral_rad, Math.abs(trial.limitCurvature) * spec.cutterRadius_mm - 1];
  };
  const [around, ringPitch] = rootOfTwo(misfit, [aroundGuess, pitchGuess], 1e-6);
  return { ...hypoidStand(spec, around, ringPitch), ringPitch_rad: ringPitch, pinionAxisY_mm: spec.offset_mm };
}

/** Without offset the pitch planes share one element and the tooth runs at the drawn angle; nothing slides there. */
function bevelMean(spec: BlankSpec) {
  const ratio = spec.ringTeeth / spec.pinionTeeth;
  const ringPitch = Math.atan(ratio);
  const base = stand(spec, 0, ringPitch);
  const mean: Vector = [base.radius, 0, base.radius / ratio];
  const spiral = spec.pinionSpiral_rad;
  const tooth = plus(along(base.toHeel, Math.cos(spiral)), along([0, 1, 0], Math.sin(spiral)));
  return {
    ...base,
    mean,
    tooth,
    across: cross(tooth, base.toCrown),
    pinionMeanRadius_mm: mean[2],
    pinionPitch_rad: Math.PI / 2 - ringPitch,
    ringPitch_rad: ringPitch,
    pinionSpiral_rad: spiral,
    ringSpiral_rad: spiral,
    limitPressure_rad: 0,
    pinionAxisY_mm: 0,
  };
}

/**
 * The blank of a set. Depths: working depth two mean normal modules, the ring gear's share of it 0.21 + 0.29/ratio²
 * (from memory of common bevel practice; the text of the standard was not seen).
 * @throws NoSuchGear when no mean point fits the drawing
 */
export function drawBlank(spec: BlankSpec): Blank {
  const { radius, ...drawn } = spec.offset_mm === 0 ? bevelMean(spec) : hypoidMean(spec);
  const ratio = spec.ringTeeth / spec.pinionTeeth;
  const normalModule = (2 * radius * Math.cos(drawn.ringSpiral_rad)) / spec.ringTeeth;
  const workingDepth = 2 * normalModule;
  return {
    ...drawn,
    spec,
    ratio,
    ringMeanRadius_mm: radius,
    workingDepth_mm: workingDepth,
    ringAddendum_mm: workingDepth * (0.21 + 0.29 / ratio ** 2),
  };
}

/** Largest radius at which backlash is read: the outer end of the pitch cone, "at the heel". */
export const heelRadius = (blank: Blank): number => blank.spec.outerDiameter_mm / 2;
