import { type Length, newtonMetres, type Torque } from '../../../../shared/basics/quantity.ts';
import type { Result } from '../../../../shared/basics/result.ts';
import {
  learnShimSlope,
  type PreloadAnswer,
  preloadShim,
  startingSlope,
  totalTorque,
} from '../../../../shared/axle/arithmetic/preload.ts';

/** Two shims and the running torques they gave; the second pair is what makes the slope this axle's own. */
interface PreloadReadings {
  readonly shim: Length | undefined;
  readonly running: Torque | undefined;
  readonly earlierShim: Length | undefined;
  readonly earlierRunning: Torque | undefined;
  readonly wanted: Torque | undefined;
}

/** The preload shim; nothing while a reading is missing. */
export function preloadShimFrom(read: PreloadReadings): Result<PreloadAnswer> | undefined {
  const { shim, running, earlierShim, earlierRunning, wanted } = read;
  if (shim === undefined || running === undefined || wanted === undefined) return undefined;
  const now = { shim, running };
  if (earlierShim === undefined || earlierRunning === undefined) return preloadShim(now, wanted, startingSlope);
  const slope = learnShimSlope({ shim: earlierShim, running: earlierRunning }, now);
  return slope.ok ? preloadShim(now, wanted, slope.value) : slope;
}

/** The parts of a total rotating torque, each running; a mesh that is not known counts nothing. */
interface TorquePartsRead {
  readonly pinion: Torque | undefined;
  readonly caseBearings: Torque | undefined;
  readonly mesh: Torque | undefined;
  /** Ring gear to pinion teeth. */
  readonly ratio: number | undefined;
}

/** Total rotating torque to expect from its parts, at the pinion; nothing while one is missing. */
export function totalFrom({ pinion, caseBearings, mesh, ratio }: TorquePartsRead): Torque | undefined {
  if (pinion === undefined || caseBearings === undefined || ratio === undefined) return undefined;
  return totalTorque({ pinion, caseBearings, mesh: mesh ?? newtonMetres(0) }, ratio);
}
