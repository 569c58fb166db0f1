import { fail, ok, type Result } from '../../basics/result.ts';
import { blend, cross, plus, rolled, times, turned, type Vector } from './vector.ts';
import { type FlankCut, opening, type Surface } from './surface.ts';

/**
 * A face-hobbed ring-gear flank: the ring gear turns on its own axis, one blade group for each tooth gap, while the
 * cutter turns square to the pitch plane, so that a straight blade leaves an extended epicycloid of constant depth.
 * @param ringTeeth teeth of the ring gear; with the blade groups they couple the two turns.
 * @returns a Problem of kind `cutter-cannot-reach` where no such cutter makes this spiral angle.
 */
export function faceHobbedSurface(
  cut: FlankCut,
  ringTeeth: number,
  bladeGroups: number,
): Result<Surface, 'cutter-cannot-reach'> {
  const { frame, cutterRadius } = cut;
  const { ringSpiral, ringMeanRadius } = frame.blank;
  // The blade must move along the tooth: the gear's own turn at the mean point leans the cutter radius by this angle.
  const coupling = bladeGroups / ringTeeth;
  const lean = (ringMeanRadius * coupling * Math.cos(ringSpiral)) / cutterRadius;
  if (!(lean < 1)) return cannotReach();
  const trace = blend(Math.cos(ringSpiral), frame.heelward, -Math.sin(ringSpiral), frame.round);
  const inward = times(-1, cross(frame.up, trace));
  const arm = times(cutterRadius, turned(inward, frame.up, Math.asin(lean)));
  const centre = plus(frame.mean, arm);
  const flare = opening(cut.flank) * Math.tan(cut.pressureAngle);
  const bladeFoot = times(-1, arm);
  return ok((angle, height) => {
    const blade = turned(plus(bladeFoot, times(-flare * height, inward)), frame.up, angle);
    const turn = -coupling * angle;
    const at = plus(plus(centre, blade), times(height, frame.up));
    const point = rolled(at, turn);
    const cutting = rolled(cross(frame.up, blade), turn);
    return {
      point,
      along: plus(cutting, times(-coupling, aboutRingAxis(point))),
      up: rolled(plus(times(-flare, turned(inward, frame.up, angle)), frame.up), turn),
    };
  });
}

/** How a point moves when the ring gear turns by one radian. */
const aboutRingAxis = (point: Vector): Vector => [-point[1], point[0], 0];

const cannotReach = (): Result<never, 'cutter-cannot-reach'> =>
  fail({
    kind: 'cutter-cannot-reach',
    field: 'cutterRadius_mm',
    sentence: 'cutterRadius_mm: with so many blade groups this cutter is too small for the spiral angle.',
    remedy: 'Check cutterRadius_mm and bladeGroups, or leave both out.',
  });
