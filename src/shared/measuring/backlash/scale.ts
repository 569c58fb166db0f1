import { widthOf, type Corridor } from './corridor.ts';
import type { Away } from './state.ts';

/** A gauge that changes its unit or loses a turn of its counter: seen in lengths that no gear can do. */

/** Rocks as far apart as two units of length would make them. */
export function unitsApart(one: number, other: number): boolean {
  const ratio = Math.max(one, other) / Math.min(one, other);
  return ratio > 20 && ratio < 32;
}

/**
 * From one reading to the next everything shrank or grew by 25.4 and stayed there: the display changed its unit. Told
 * so only of a station that has no number yet, for a hang may by chance lie at such a place.
 */
export function unitChanged(away: Away, resolution: number): boolean {
  const greater = Math.max(Math.abs(away.from), Math.abs(away.to));
  const lesser = Math.min(Math.abs(away.from), Math.abs(away.to));
  const width = widthOf(away.corridor);
  const stays =
    away.highest - away.lowest <= (Math.abs(away.to) < Math.abs(away.from) ? 0.1 : 30) * width + 4 * resolution;
  const near = (2 * width) / 25.4 + resolution;
  return stays && lesser > 2 * near && Math.abs(greater / 25.4 - lesser) <= near;
}

/** The whole shift came between two readings, while the hand did not move: a gauge miscounts so, a base does not move so. */
export function jumped(away: Away, corridor: Corridor): boolean {
  const old = away.corridor;
  const shift = (corridor.low + corridor.high - old.low - old.high) / 2;
  const width = widthOf(corridor);
  return Math.abs(shift) > width && Math.abs(away.to - away.from - shift) < 0.25 * width;
}
