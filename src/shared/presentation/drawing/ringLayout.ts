import type { UnitSystem } from '../../basics/show.ts';
import { type Limits, limitValues, type Range, rangeFor, shareOf, smallest } from './scale.ts';
import type { Point, SceneSize } from './scene.ts';
import type { RingInput } from './ringInput.ts';
import { isNone } from '../../basics/result.ts';

/** A ring-shaped strip in which a quantity is drawn outwards. */
export interface Lane {
  readonly inner: number;
  readonly outer: number;
}

export interface RingLayout {
  readonly centre: Point;
  readonly text: number;
  /** Radius of the tooth tips' outer end (heel) and inner end (toe) as drawn. */
  readonly heel: number;
  readonly toe: number;
  readonly values: Lane | undefined;
  readonly runout: Lane | undefined;
  /** Radius that stays free for words. */
  readonly core: number;
}

/** Shares of the ring's outer radius. */
const toeShare = 0.91;
const outerShare = 0.86;

/** Where everything goes; a single quantity gets the whole width that two would share. */
export function layoutOf(input: RingInput): RingLayout {
  const { width, height, text } = input.size;
  const heel = radiusThatFits(input.size, input.system);
  const [values, runout] = lanesOf(input, heel);
  const core = Math.min(values?.inner ?? heel, runout?.inner ?? heel) - text * 0.5;
  return { centre: { x: width / 2, y: height / 2 }, text, heel, toe: heel * toeShare, values, runout, core };
}

/** Leaves room for the numbers around the ring: a line above and below, a value's width at the sides. */
function radiusThatFits({ width, height, text }: SceneSize, system: UnitSystem): number {
  const beside = text * (system === 'inch' ? 4.7 : 4.1);
  return Math.max(text * 3, Math.min(width / 2 - beside, height / 2 - text * 2.1));
}

function lanesOf(input: RingInput, heel: number): readonly [Lane | undefined, Lane | undefined] {
  const lane = (inner: number, outer: number): Lane => ({ inner: heel * inner, outer: heel * outer });
  const hasRunout = input.runout !== undefined;
  const hasValues = input.stations.length > 0 || input.limits !== undefined || input.live !== undefined;
  if (hasRunout && hasValues) return [lane(0.46, outerShare), lane(0.2, 0.4)];
  if (hasRunout) return [undefined, lane(0.44, outerShare)];
  return [lane(0.38, outerShare), undefined];
}

/** A quantity drawn outwards on a lane. */
export interface RadialScale {
  readonly lane: Lane;
  readonly range: Range;
  /** The radius of a value, kept on the lane. */
  readonly radius: (value_mm: number) => number;
}

export function radialScale(lane: Lane, range: Range): RadialScale {
  const radius = (value: number): number =>
    lane.inner + (lane.outer - lane.inner) * Math.min(1, Math.max(0, shareOf(value, range)));
  return { lane, range, radius };
}

/** The scale on which the stations' values are drawn. */
export function valueScale(input: RingInput, lane: Lane): RadialScale {
  const measured = input.stations.flatMap(({ value_mm, U95_mm = 0 }) =>
    isNone(value_mm) ? [] : [value_mm - U95_mm, value_mm + U95_mm],
  );
  const live = input.live === undefined ? [] : [input.live.value_mm];
  return radialScale(lane, rangeFor([...measured, ...live], input.limits, 'length', input.system));
}

/**
 * The values worth writing into the scale: the limits and where it begins, else its two ends. Where it begins is
 * left out when it lies closer to the next than `least` allows two numbers to stand.
 */
export function writtenValues(scale: RadialScale, limits: Limits | undefined, least: number): readonly number[] {
  const written = limitValues(limits);
  if (written.length === 0) return [scale.range.low, scale.range.high];
  const room = scale.radius(smallest(written)) - scale.radius(scale.range.low);
  return room < least ? written : [scale.range.low, ...written];
}

/** Where the scale is written when nothing is in its way: right of the top, where its numbers stand one above the other. */
const preferredAxis_deg = 25;
/** Less room than this between two stations is no room for numbers. */
const roomForNumbers_deg = 30;

/** The clock angle midway between two stations that lies nearest to where the scale is best read. */
export function freeAngle(angles_deg: readonly number[], preferred_deg = preferredAxis_deg): number {
  if (angles_deg.length === 0) return preferred_deg;
  const sorted = angles_deg.map((angle) => ((angle % 360) + 360) % 360).sort((a, b) => a - b);
  const gaps = sorted.map((angle, index) => ({ angle, size: (sorted[index + 1] ?? (sorted[0] ?? 0) + 360) - angle }));
  const most = gaps.reduce((size, gap) => Math.max(size, gap.size), 0);
  const middles = gaps
    .filter(({ size }) => size >= Math.min(most, roomForNumbers_deg))
    .map(({ angle, size }) => (angle + Math.min(size, 2 * preferredAxis_deg + size / 4) / 2) % 360);
  return middles.sort((a, b) => apart(a, preferred_deg) - apart(b, preferred_deg))[0] ?? preferred_deg;
}

/** One angle for each circle's number: across the ring from the one before where the two would run into each other. */
export function numberAngles(
  radii: readonly number[],
  angles_deg: readonly number[],
  least: number,
): readonly number[] {
  const here = freeAngle(angles_deg);
  const across = freeAngle(angles_deg, (here + 180) % 360);
  const chosen: number[] = [];
  for (const [index, radius] of radii.entries()) {
    const close = index > 0 && Math.abs(radius - (radii[index - 1] ?? 0)) < least;
    chosen.push(close && chosen.at(-1) === here ? across : here);
  }
  return chosen;
}

/** Between two clock angles the short way round. */
export const apart = (a: number, b: number): number => Math.min(Math.abs(a - b), 360 - Math.abs(a - b));
