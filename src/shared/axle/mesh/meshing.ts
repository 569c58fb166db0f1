import { dot, plus, rolled, times, type Vector } from './vector.ts';
import { type Frame, placeChange } from './frame.ts';
import type { FlankPoint } from './surface.ts';

/** A flank point where it meets its conjugate pinion. */
export interface Meeting {
  /** Ring-gear roll (rad) from the position in which the mean point is in mesh, at which this point touches. */
  readonly roll: number;
  /** The point and the normal there, out of the ring gear's tooth. */
  readonly point: Vector;
  readonly normal: Vector;
  /** Normal travel of this point for each radian the ring gear turns (mm); negative on the convex flank. */
  readonly lever: number;
  /** How the point slides on the pinion there, as change of its place (mm for each radian of roll). */
  readonly slide: { readonly u: number; readonly v: number };
  /** How fast the pinion's surface and this point draw apart along the normal when the roll goes on (mm/rad²). */
  readonly parting: number;
}

/** Looks up where a place (u, v) of a flank meets its conjugate pinion. */
export type MeetingAt = (u: number, v: number) => Meeting | undefined;

/**
 * Mesh condition: both surfaces move with the same speed along their common normal,
 * n · (ω2 × r − ω1 × (r − A)) = 0. Turning r and n about the ring-gear axis makes it a sin φ + b cos φ = c.
 * @returns undefined where the point never meets the pinion (an undercut or impossible blank).
 */
export function meetingOf(frame: Frame, flankPoint: FlankPoint): Meeting | undefined {
  const { point, normal } = flankPoint;
  const lever = point[0] * normal[1] - point[1] * normal[0];
  const a = point[0] * normal[2] - point[2] * normal[0];
  const b = point[1] * normal[2] - point[2] * normal[1];
  // The pinion turns against the ring gear in this frame, hence the minus sign.
  const c = -lever / frame.blank.ratio + frame.pinionAxis[1] * normal[2];
  const size = Math.hypot(a, b);
  if (!(Math.abs(c) <= size)) return undefined;
  const lean = Math.atan2(b, a);
  const low = wrapped(Math.asin(c / size) - lean);
  const high = wrapped(Math.PI - Math.asin(c / size) - lean);
  const roll = Math.abs(low) < Math.abs(high) ? low : high;
  const parting = frame.blank.ratio * (b * Math.sin(roll) - a * Math.cos(roll));
  const met = rolled(point, roll);
  return { roll, point: met, normal: rolled(normal, roll), lever, slide: slideAt(frame, met), parting };
}

/** Velocity of a ring-gear point against the pinion, for one radian of ring-gear roll. */
function slideAt(frame: Frame, point: Vector): { readonly u: number; readonly v: number } {
  const { ratio } = frame.blank;
  const pinion: Vector = [0, ratio * point[2], ratio * (frame.pinionAxis[1] - point[1])];
  const [u, v] = placeChange(frame, point, plus([-point[1], point[0], 0], times(-1, pinion)));
  return { u, v };
}

/** Into −π…π. */
const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/**
 * Gap (mm along the normal at the mean point) that one millimetre of pinion movement along `direction` opens at this
 * point. Seen as ring-gear rotation it is d·n / lever; the mean point's lever turns it back into a length.
 */
export const gapOpened = (meeting: Meeting, meanLever: number, direction: Vector): number =>
  (dot(direction, meeting.normal) * meanLever) / meeting.lever;
