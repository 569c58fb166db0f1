import { mean } from '../../basics/statistics.ts';
import { rectangular, type UncertaintyPart } from '../uncertainty/uncertainty.ts';
import type { Pause } from './pauses.ts';
import { noiseOfPoints, type Point, type Trace } from './trace.ts';

/** Creep that a base may have without anybody seeing it at a rest, mm/s (own choice; worlds of stations are printed with it). */
const unseenCreep = 0.0005;
/** A slope of so many standard errors was no noise. */
const seenFrom = 2;

/**
 * Who does not come back to the first place cannot know how far the base crept from the lowest station to the highest.
 * What can be known is how the readings go up or down while the hand stands still.
 * @param trace everything ridden over, in which the rests lie
 */
export function creepBetween(trace: Trace, stations: readonly Pause[]): readonly UncertaintyPart[] {
  const inOrder = stations.toSorted((one, other) => one.value - other.value);
  const apart_s = Math.abs((inOrder.at(-1)?.t ?? 0) - (inOrder[0]?.t ?? 0));
  if (apart_s === 0) return [];
  const creep = Math.max(unseenCreep, creepAtRest(trace, stations));
  return [{ name: 'creep from station to station', u: rectangular(creep * apart_s) }];
}

/** Slope common to all rests with its standard error, mm/s; nothing where it may be noise. */
function creepAtRest({ points, perPoint }: Trace, stations: readonly Pause[]): number {
  let [along, across] = [0, 0];
  const rests = stations.map((station) => restOf(points, station, perPoint)).filter(({ length }) => length > 1);
  for (const rest of rests) {
    const t = mean(rest.map((point) => point.t));
    for (const point of rest) {
      along += (point.t - t) * point.value;
      across += (point.t - t) ** 2;
    }
  }
  if (across === 0) return 0;
  const slope = Math.abs(along / across);
  const error = noiseOfPoints(rests.flat()) / Math.sqrt(across);
  return slope > seenFrom * error ? slope + error : 0;
}

function restOf(points: readonly Point[], { t, n }: Pause, perPoint: number): readonly Point[] {
  const from = points.findIndex((point) => point.t >= t);
  return from < 0 ? [] : points.slice(from, from + Math.floor(n / perPoint));
}
