import type { Pause } from './pauses.ts';
import type { RunoutCapture } from './runoutState.ts';
import { settledPart, type Unsettled } from './settled.ts';
import { addTo, noMoments, sdOf } from '../../basics/statistics.ts';
import { noiseOfPoints, type Point } from './trace.ts';

/** A rest reaches no further from its press than this. */
const reach_s = 1.5;
/** From a stem that has just come down to the middle of its first readings. */
const stood_s = 0.15;

/**
 * The stations that were pressed, each read where the hand stood still around its press. The first begins when the stem
 * stands: a press while it was still coming down says which place is meant, not what it reads.
 */
export function readAtPresses({ trace, markTimes, settings }: RunoutCapture): readonly Pause[] | Unsettled {
  const { points } = trace;
  const [first, last] = [markTimes[0], markTimes.at(-1)];
  if (first === undefined || last === undefined) return [];
  const settled = settledPart(points, first, last, settings.resolution);
  if (typeof settled === 'string') return settled;
  const stands = settled.find(({ t }) => t >= first)?.t ?? first;
  const times = markTimes.map((t, index) => (index === 0 && stands - t > stood_s / 3 ? stands + stood_s : t));
  const noise = noiseOfPoints(settled);
  const values = settled.map(({ value }) => value);
  const range = Math.max(...values) - Math.min(...values);
  const band = Math.max(1.6 * settings.resolution, 4 * noise, range / 12);
  return times.flatMap((t, index) => {
    const from = Math.max(t - reach_s, between(times[index - 1], t) ?? stands);
    const to = Math.min(t + reach_s, between(t, times[index + 1]) ?? Infinity);
    return restAround(
      points.filter((point) => point.t >= from && point.t <= to),
      t,
      band,
    );
  });
}

const between = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : (a + b) / 2;

/** The readings around a press that lie together with the nearest one; none where none was near. */
function restAround(points: readonly Point[], t: number, band: number): readonly Pause[] {
  const nearest = points.reduce<number>(
    (best, point, index) => (Math.abs(point.t - t) < Math.abs((points[best]?.t ?? Infinity) - t) ? index : best),
    0,
  );
  const middle = points[nearest];
  if (middle === undefined) return [];
  const lies = ({ value }: Point): boolean => Math.abs(value - middle.value) <= band;
  const later = points.slice(nearest).findIndex((point) => !lies(point));
  const earlier = points.slice(0, nearest).findLastIndex((point) => !lies(point));
  const rest = points.slice(earlier + 1, later < 0 ? points.length : nearest + later);
  // The hand that sets out or arrives is still within the band: only the middle of the rest counts.
  const edge = Math.floor(rest.length / 6);
  return [pauseOf(rest.slice(edge, rest.length - edge))];
}

function pauseOf(rest: readonly Point[]): Pause {
  const [values, travel] = [noMoments(), noMoments()];
  let steps = 0;
  for (const [index, point] of rest.entries()) {
    addTo(values, point.value);
    addTo(travel, point.travel);
    steps += index === 0 ? 0 : (point.value - (rest[index - 1]?.value ?? point.value)) ** 2;
  }
  const t = rest[0]?.t ?? 0;
  const angle = travel.mean === travel.mean ? { angle: travel.mean } : {};
  return { t, value: values.mean, sd: sdOf(values), n: values.n, steps, ...angle };
}
