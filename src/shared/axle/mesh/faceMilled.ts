import type { Angle } from '../../basics/quantity.ts';
import { blend, cross, plus, times } from './vector.ts';
import { type FlankCut, opening, type Surface } from './surface.ts';

/**
 * A face-milled ring-gear flank is the cutter's own cone: the ring gear stands still while the cutter passes
 * (not generated). The cutter axis is square to the root plane, which is the pitch plane tilted about the direction
 * round the gear so that the tooth is deeper towards the heel. Each flank is turned so that its trace in the pitch
 * plane has the mean spiral angle at the mean point, and the blade is ground so that its normal there makes this
 * flank's own angle with that plane: the gears mesh about the pitch plane, not about the cutter.
 */
export function faceMilledSurface(cut: FlankCut, rootTilt: Angle): Surface {
  const { frame, cutterRadius } = cut;
  const axis = blend(Math.cos(rootTilt), frame.up, Math.sin(rootTilt), frame.heelward);
  const rootHeelward = blend(Math.cos(rootTilt), frame.heelward, -Math.sin(rootTilt), frame.up);
  const blade = bladeAngle(cut, rootTilt);
  const spiral = rootSpiral(cut, rootTilt, blade);
  const trace = blend(Math.cos(spiral), rootHeelward, -Math.sin(spiral), frame.round);
  const inward = times(-1, cross(axis, trace));
  const centre = plus(frame.mean, times(cutterRadius, inward));
  const flare = opening(cut.flank) * Math.tan(blade);
  return (angle, height) => {
    const radius = cutterRadius + flare * height;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const outward = blend(-c, inward, s, trace);
    return {
      point: plus(centre, blend(radius, outward, height, axis)),
      along: blend(radius * s, inward, radius * c, trace),
      up: plus(times(flare, outward), axis),
    };
  };
}

/**
 * Angle of the blade to the cutter axis that leaves the flank's own angle to the pitch plane: the wanted normal seen
 * along the tilted axis. At 4.5° of tilt and 30° of spiral convex blades are some 2° steeper, concave ones as much
 * flatter, than the flank they leave (derived).
 */
function bladeAngle(cut: FlankCut, rootTilt: Angle): number {
  const lean = opening(cut.flank) * Math.cos(cut.pressureAngle) * Math.sin(cut.frame.blank.ringSpiral);
  return Math.asin(Math.sin(cut.pressureAngle) * Math.cos(rootTilt) - lean * Math.sin(rootTilt));
}

/**
 * The spiral angle in the root plane whose flank shows β2 in the pitch plane: from normal · trace = 0, which is
 * A cos x + B sin x = C in the wanted angle x.
 */
function rootSpiral(cut: FlankCut, rootTilt: Angle, blade: number): number {
  const spiral = cut.frame.blank.ringSpiral;
  const across = Math.sin(spiral);
  const along = -Math.cos(spiral) * Math.cos(rootTilt);
  const tilted = -opening(cut.flank) * Math.tan(blade) * Math.sin(rootTilt) * Math.cos(spiral);
  return Math.atan2(along, across) + Math.acos(tilted / Math.hypot(across, along));
}
