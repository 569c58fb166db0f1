import { at } from '../basics/at.ts';

/** The arrivals of a gauge's last readings, in a ring, and the pace they show. */
export interface Pace {
  readonly arrivals: Float64Array;
  readonly inOrder: Float64Array;
  heard: number;
  /** Looked at anew once so many have been heard. */
  due: number;
  /** Seconds between two readings as the gauge sends them; 0 while not known, or where it keeps no pace. */
  seconds: number;
}

const kept = 128;
/** Learned from so many readings first, then at every doubling. */
const fewest = 8;
/** Later each time the ring has filled anew while no pace is known, and seldom where one is: sorting is dear. */
const seldom = 8 * kept;

export const newPace = (): Pace => ({
  arrivals: new Float64Array(kept),
  inOrder: new Float64Array(kept),
  heard: 0,
  due: fewest,
  seconds: 0,
});

/** Takes the arrival of one reading. */
export function hearPace(pace: Pace, arrived: number): void {
  pace.arrivals[pace.heard % kept] = arrived;
  pace.heard += 1;
}

export const isPaceDue = ({ heard, due }: Pace): boolean => heard >= due;

/** Looks at the pace anew. Not in the middle of a heap: what is still to come of it would be missing. */
export function learnPace(pace: Pace): void {
  const { arrivals, inOrder, heard } = pace;
  const many = Math.min(heard, kept);
  for (let index = 0; index < many; index += 1) inOrder[index] = at(arrivals, (heard - many + index) % kept);
  pace.seconds = paceIn(inOrder.subarray(0, many));
  if (heard < kept) pace.due = Math.min(2 * heard, kept);
  else pace.due = heard + (pace.seconds === 0 ? kept : seldom);
}

/** Where less than this share of the middle way is the middle interval, most readings come in heaps. */
const mostlyAlone = 0.6;

/**
 * The middle interval; where most readings come in heaps, the slope of the line that touches the arrivals from below at
 * their middle: delays only ever add (the line of least delay; textbook, for clocks read over a network).
 */
function paceIn(arrivals: Float64Array): number {
  const intervals = arrivals.subarray(1).map((arrived, index) => arrived - at(arrivals, index));
  const middle = at(intervals.toSorted(), intervals.length >> 1);
  const below = slopeBelow(arrivals);
  const found = middle > mostlyAlone * below ? middle : below;
  return found > 0 && found < Infinity && keepsIt(intervals, found) ? found : 0;
}

/** Slope of the lower hull where it passes the middle of the list. */
function slopeBelow(arrivals: Float64Array): number {
  const hull: number[] = [];
  const slope = (from: number, to: number): number => (at(arrivals, to) - at(arrivals, from)) / (to - from);
  for (let index = 0; index < arrivals.length; index += 1) {
    while (
      hull.length > 1 &&
      slope(at(hull, hull.length - 2), at(hull, hull.length - 1)) >= slope(at(hull, hull.length - 1), index)
    )
      hull.pop();
    hull.push(index);
  }
  const beyond = hull.findIndex((index) => index > (arrivals.length - 1) / 2);
  return beyond < 1 ? 0 : slope(at(hull, beyond - 1), at(hull, beyond));
}

/** Of intervals drawn by chance about six in ten lie so (derived for an exponential spread); the fewer, the more have to. */
const mostOf = (many: number): number => 0.75 + 0.5 / Math.sqrt(many);

/** Whether nearly all intervals are whole numbers of paces, or none of it: readings of one heap. */
function keepsIt(intervals: Float64Array, pace: number): boolean {
  let fits = 0;
  for (const interval of intervals) {
    const paces = interval / pace;
    if (paces < 0.3 || (paces > 0.7 && Math.abs(paces - Math.round(paces)) < 0.25)) fits += 1;
  }
  return fits >= mostOf(intervals.length) * intervals.length;
}
