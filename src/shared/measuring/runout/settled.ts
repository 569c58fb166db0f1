import { type Point, noiseOfPoints } from './trace.ts';

/** Why no part of a ride can be taken for the gear: the stem was still coming down at its begin, or already off at its end. */
export type Unsettled = 'stem-landing' | 'stem-lifted';

/**
 * What of a ride the stem stood on the gear for. A press says when to begin; where the stem was still on its way down
 * then, the ride begins with the first reading at which it stands. A stem coming down is known by going faster than the gear ever
 * moves it in the middle of the ride, and by not having stood before.
 *
 * @param points the whole ride, what came before `from_s` included: it tells whether the stem had stood
 * @param from_s time of the first press (or of the first reading), `to_s` of the last
 */
export function settledPart(
  points: readonly Point[],
  from_s: number,
  to_s: number,
  resolution: number,
): readonly Point[] | Unsettled {
  const usual = usualOf(points, from_s, to_s, resolution);
  const begins = beginOf(points, from_s, usual, stands_s);
  if (begins === undefined) return 'stem-landing';
  // Backwards in time a stem that is lifted is one that comes down; it leaves at once, where one that comes down goes on creeping.
  const ends = beginOf(points.map(mirrored).toReversed(), -to_s, usual, 0);
  if (ends === undefined) return 'stem-lifted';
  return points.filter(({ t }) => t >= begins && t <= -ends);
}

const mirrored = ({ t, value, travel }: Point): Point => ({ t: -t, value, travel });

/** How the gear moves the stem in the middle of the ride, where nobody puts it down or lifts it. */
interface Usual {
  /** A change within a tenth of a second that the gear does not make. */
  readonly fast: number;
  /** The same, where nothing is known of what came before. */
  readonly brisk: number;
  /** Readings of a stem that stands lie within this. */
  readonly band: number;
  /** Range of the middle of the ride. */
  readonly range: number;
  readonly long_s: number;
}

const step_s = 0.1;
const stands_s = 0.3;
/** A stem that has come down stands at once, or it is not known when it does. */
const soon_s = 0.5;

function usualOf(points: readonly Point[], from_s: number, to_s: number, resolution: number): Usual {
  const long_s = to_s - from_s;
  const middle = points.filter(({ t }) => t >= from_s + long_s / 5 && t <= to_s - long_s / 5);
  const noise = noiseOfPoints(middle);
  const values = middle.map(({ value }) => value);
  const range = values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  const largest = Math.max(0, ...stepsOf(middle).map(({ change }) => Math.abs(change)));
  return {
    fast: 2 * largest + 2 * resolution + 6 * noise,
    brisk: 1.3 * largest + 2 * resolution + 6 * noise,
    band: 1.1 * resolution + 6 * noise,
    range,
    long_s,
  };
}

interface Step {
  readonly from: Point;
  readonly to: Point;
  readonly change: number;
}

/** From each point to the first one a tenth of a second later. */
function stepsOf(points: readonly Point[]): readonly Step[] {
  const steps: Step[] = [];
  let ahead = 1;
  for (const [index, from] of points.entries()) {
    ahead = Math.max(ahead, index + 1);
    let to = points[ahead];
    while (to !== undefined && to.t - from.t < step_s - 1e-9) {
      ahead += 1;
      to = points[ahead];
    }
    if (to !== undefined) steps.push({ from, to, change: to.value - from.value });
  }
  return steps;
}

/** When the stem stands at or after `from_s`, having been down for `calm_s`; undefined when it is not seen to. */
function beginOf(points: readonly Point[], from_s: number, usual: Usual, calm_s: number): number | undefined {
  const landed_s = landedAt(points, from_s, usual);
  if (landed_s === undefined || from_s - landed_s >= calm_s) return from_s;
  const [earliest, latest] = [Math.max(landed_s, from_s), Math.max(landed_s + soon_s, from_s)];
  return points.find(({ t }) => t >= earliest && t <= latest && standsFrom(points, t, usual))?.t;
}

/** Readings from then on, for as long as a rest takes, lie together and go nowhere. */
function standsFrom(points: readonly Point[], from_s: number, { band }: Usual): boolean {
  const here: number[] = [];
  for (const { t, value } of points) {
    if (t < from_s - 1e-9) continue;
    if (here.length >= 3 && t > from_s + stands_s + 1e-9) break;
    here.push(value);
  }
  if (here.length < 3 || Math.max(...here) - Math.min(...here) > band) return false;
  const half = Math.floor(here.length / 2);
  const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.abs(meanOf(here.slice(0, half)) - meanOf(here.slice(-half))) <= band / 2;
}

/** End of the last way down in the first part of the ride, or undefined when there is none. */
function landedAt(points: readonly Point[], from_s: number, usual: Usual): number | undefined {
  const began_s = points[0]?.t ?? from_s;
  const head = points.filter(({ t }) => t <= from_s + Math.min(2, usual.long_s / 4));
  let landed_s: number | undefined;
  for (const { begins, ends } of runsOf(head, usual, began_s)) {
    const unseenBefore = begins - began_s < stands_s;
    if (unseenBefore || Math.abs(levelAfter(points, ends) - levelBefore(points, begins)) > leastDrop(usual))
      landed_s = ends;
  }
  return landed_s;
}

/** A burr lifts the stem fast too, and lets it down to where it was. */
const leastDrop = ({ fast, range }: Usual): number => Math.max(fast, range / 2);

/** Stretches of time in which the stem goes faster than the gear moves it. */
function runsOf(head: readonly Point[], { fast, brisk }: Usual, began_s: number) {
  const runs: { begins: number; ends: number }[] = [];
  for (const { from, to, change } of stepsOf(head)) {
    const bound = from.t - began_s < stands_s ? brisk : fast;
    if (Math.abs(change) <= bound) continue;
    const last = runs.at(-1);
    if (last !== undefined && from.t <= last.ends + stands_s) last.ends = to.t;
    else runs.push({ begins: from.t, ends: to.t });
  }
  return runs;
}

const levelAfter = (points: readonly Point[], at_s: number): number =>
  levelOf(points.filter(({ t }) => t >= at_s && t <= at_s + stands_s));

const levelBefore = (points: readonly Point[], at_s: number): number =>
  levelOf(points.filter(({ t }) => t <= at_s && t >= at_s - stands_s));

const levelOf = (points: readonly Point[]): number =>
  points.length === 0 ? Number.NaN : points.reduce((sum, { value }) => sum + value, 0) / points.length;
