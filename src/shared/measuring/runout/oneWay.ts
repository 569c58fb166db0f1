import type { Point } from './trace.ts';

/** How far a ride went up and down again; lengths in mm. */
interface Ways {
  /** The largest fall from any reading to a later one, and the largest rise. */
  readonly fall: number;
  readonly rise: number;
}

function waysOf(points: readonly Point[]): Ways {
  let [low, high, fall, rise] = [Infinity, -Infinity, 0, 0];
  for (const { value } of points) {
    low = Math.min(low, value);
    high = Math.max(high, value);
    fall = Math.max(fall, high - value);
    rise = Math.max(rise, value - low);
  }
  return { fall, rise };
}

export type Course = 'both-ways' | 'one-way' | 'hardly-moved';

/**
 * Whether the readings of a ride went one way only. A face that has come round once went down as far as it went up; readings
 * that never come back are those of a gauge that holds its highest or lowest value, whatever the gear did.
 * Of a step or two it cannot be said: a true face on a quiet gauge may show as little.
 * @param resolution step of the display, mm
 */
export function courseOf(points: readonly Point[], resolution: number): Course {
  const { fall, rise } = waysOf(points);
  if (Math.min(fall, rise) > noStep * resolution) return 'both-ways';
  return Math.max(fall, rise) > seen * resolution ? 'one-way' : 'hardly-moved';
}

/** Readings are whole steps: less than half of one is none. */
const noStep = 0.5;
/** So many steps one way are a movement (own choice). */
const seen = 2.5;
