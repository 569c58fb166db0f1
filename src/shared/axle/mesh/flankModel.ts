import { fail, ok, type Result } from '../../basics/result.ts';
import type { Angle } from '../../basics/quantity.ts';
import { radians } from '../../basics/quantity.ts';
import type { Flank } from '../mark/mark.ts';
import type { CompleteSet } from './completeSet.ts';
import type { EaseOff } from './easeoff.ts';
import { faceHobbedSurface } from './faceHobbed.ts';
import { faceMilledSurface } from './faceMilled.ts';
import { type FlankGrid, gridOf } from './flankGrid.ts';
import { conesAt, type Frame } from './frame.ts';
import { fitInfluence, type Influences } from './influence.ts';
import { type MeetingAt, meetingOf } from './meshing.ts';
import { type FlankCut, FlankFinder, type Surface } from './surface.ts';
import { cross, dot } from './vector.ts';
import type { VisibleFlank } from './visibleFlank.ts';

/** One flank of a set, with all that does not change when shims do. */
export interface FlankModel {
  readonly flank: Flank;
  readonly pressureAngle: Angle;
  /** Spiral angle of this flank at mid face and at the heel, on the pitch cone. */
  readonly spiral: { readonly mean: Angle; readonly heel: Angle };
  /** Normal travel of the mean point for each radian of the ring gear (mm); negative on the convex flank. */
  readonly lever: number;
  readonly easeoff: EaseOff;
  /** Gap opened by each mm of movement, fitted about the pitch point (the reference vectors) and about mid flank. */
  readonly atPitchPoint: Influences;
  readonly atMidFlank: Influences;
  readonly grid: FlankGrid;
}

export function flankModelOf(
  set: CompleteSet,
  frame: Frame,
  visible: VisibleFlank,
  flank: Flank,
  easeoff: EaseOff,
): Result<FlankModel> {
  const cut = cutOf(set, frame, flank);
  const surface = surfaceOf(set, cut);
  if (!surface.ok) return surface;
  const finder = new FlankFinder(surface.value, frame);
  const meetingAt: MeetingAt = (u, v) => {
    const found = finder.at(u, v);
    return found && meetingOf(frame, found);
  };
  const mean = meetingAt(0, 0);
  const heel = spiralAt(finder, frame, set.faceWidth / 2);
  const parts = mean && {
    atPitchPoint: fitInfluence(meetingAt, mean.lever, 0),
    atMidFlank: fitInfluence(meetingAt, mean.lever, visible.middle),
    grid: gridOf(frame, meetingAt, mean, visible, (2 * Math.PI) / set.ringTeeth),
  };
  if (!mean || heel === undefined || !parts?.atPitchPoint || !parts.atMidFlank || !parts.grid) return impossible(flank);
  const { atPitchPoint, atMidFlank, grid } = parts;
  const spiral = { mean: frame.blank.ringSpiral, heel: radians(heel) };
  const { pressureAngle } = cut;
  return ok({ flank, pressureAngle, spiral, lever: mean.lever, easeoff, atPitchPoint, atMidFlank, grid });
}

function cutOf(set: CompleteSet, frame: Frame, flank: Flank): FlankCut {
  const lean = flank === 'convex' ? frame.blank.limitPressure : 0 - frame.blank.limitPressure;
  return { frame, flank, pressureAngle: radians(set.pressureAngle + lean), cutterRadius: set.cutterRadius };
}

const surfaceOf = (set: CompleteSet, cut: FlankCut): Result<Surface> =>
  set.cut === 'face-hobbed'
    ? faceHobbedSurface(cut, set.ringTeeth, set.bladeGroups)
    : ok(faceMilledSurface(cut, set.rootTilt));

/** Spiral angle of the flank's trace on the pitch cone, `u` from the mean point (rad). */
export function spiralAt(finder: FlankFinder, frame: Frame, u: number): number | undefined {
  const found = finder.at(u, 0);
  if (!found) return undefined;
  const { up, heelward } = conesAt(frame, found.point);
  const trace = cross(up, found.normal);
  return Math.abs(Math.atan(dot(trace, cross(up, heelward)) / dot(trace, heelward)));
}

const impossible = (flank: Flank): Result<never> =>
  fail({
    kind: 'impossible-flank',
    field: 'set',
    sentence: `These figures give a ring gear whose ${flank} flank cannot mesh over the whole face.`,
    remedy: 'Check face width, spiral angle, offset and cutter radius; leave out what you are not sure of.',
  });
