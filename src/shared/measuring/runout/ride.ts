import { none, type NoNumber } from '../../basics/result.ts';
import type { RunoutCapture } from './runoutState.ts';
import { readAgain } from './samePlace.ts';
import { settledPart, type Unsettled } from './settled.ts';
import type { Point } from './trace.ts';

/** What was ridden over while the stem stood, in the order of time. */
export interface Ride {
  readonly points: readonly Point[];
  /** The angle of the gear is known at every point. */
  readonly placed: boolean;
  /** The technician said where the turn begins and ends. */
  readonly marked: boolean;
  /** Readings in which the gear's surface has no part: taken while it stood (before the first press, or by the angle), or apart a turn later. */
  readonly rests: readonly (readonly Point[])[];
}

/** Fewer readings say nothing about a turn (our choice): two lobes would need as many places to be seen at all. */
const fewest = 8;

/**
 * The ride a runout is read off: from the first press to the last where they mark a turn, freed from what the stem read
 * while it came down or was lifted.
 */
export function rideOf(capture: RunoutCapture): Ride | NoNumber<Unsettled | 'nothing-measured' | 'too-few'> {
  const { trace, settings } = capture;
  const all = trace.points.filter(({ travel }) => travel === travel);
  const placed = all.length > 0;
  const points = placed ? all : trace.points;
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return none('nothing-measured');
  const { from, to, marked } = limitsOf(capture, points, placed, first.t, last.t);
  const settled = settledPart(points, from, to, settings.resolution);
  if (typeof settled === 'string') return none(settled);
  const within = settled.filter(({ t }) => t >= from && t <= to);
  return within.length < fewest
    ? none('too-few')
    : { points: within, placed, marked, rests: restsOf(points, within, placed, from) };
}

/** A rest is looked at for no longer than this, so that a stand that creeps does not pass for one that sways. */
const longestRest_s = 3;
/** A fifth of a degree is a gear that stands. */
const stands_rad = 0.0035;

function restsOf(
  points: readonly Point[],
  within: readonly Point[],
  placed: boolean,
  from: number,
): readonly (readonly Point[])[] {
  const [first, last] = [within[0], within.at(-1)];
  if (first === undefined || last === undefined) return [];
  if (!placed) return [points.filter(({ t }) => t < from && t > from - longestRest_s)];
  const early = points.filter(
    ({ t, travel }) => Math.abs(travel - first.travel) < stands_rad && t >= first.t && t < first.t + longestRest_s,
  );
  const late = points.filter(
    ({ t, travel }) => Math.abs(travel - last.travel) < stands_rad && t <= last.t && t > last.t - longestRest_s,
  );
  // What the same place reads apart a turn later no gear does either; both readings waver, each as much.
  const again = readAgain(within).map((point) => ({ ...point, value: point.value / Math.SQRT2 }));
  return [early, late, again];
}

interface Limits {
  readonly from: number;
  readonly to: number;
  readonly marked: boolean;
}

/** Where the angle is known, presses that enclose less than a turn give way to it: it says itself what a turn is. */
function limitsOf(
  { markTimes }: RunoutCapture,
  points: readonly Point[],
  placed: boolean,
  began_s: number,
  ended_s: number,
): Limits {
  const from = markTimes[0] ?? began_s;
  const to = markTimes.length < 2 ? ended_s : (markTimes.at(-1) ?? ended_s);
  if (!placed || coversTurn(points, from, to)) return { from, to, marked: markTimes.length >= 2 };
  if (coversTurn(points, from, ended_s)) return { from, to: ended_s, marked: false };
  return { from: began_s, to: ended_s, marked: false };
}

function coversTurn(points: readonly Point[], from: number, to: number): boolean {
  let [low, high] = [Infinity, -Infinity];
  for (const { t, travel } of points) {
    if (t < from || t > to) continue;
    low = Math.min(low, travel);
    high = Math.max(high, travel);
  }
  return high - low >= 2 * Math.PI;
}
