import type { Ride } from './ride.ts';
import { paceOf, type Point } from './trace.ts';
import { wanderOf } from './wander.ts';

/** What noise with a memory does to a runout. */
interface Wandering {
  /** Standard deviation of what wanders, mm; what rounding alone would make of a still stem is taken out. */
  readonly sd: number;
  readonly memory_s: number;
  readonly nu: number;
}

const none: Wandering = { sd: 0, memory_s: 0, nu: 1 };

/** @param turns how many turns the ride is taken to have been; absent where the angle tells. */
export function wanderingIn(points: readonly Point[], resolution: number, turns: number | undefined): Wandering {
  const found = wanderOf(points, turns);
  if (found === undefined) return none;
  const square = found.sd ** 2 - resolution ** 2 / 12;
  return square <= 0 ? none : { sd: Math.sqrt(square), memory_s: found.memory_s, nu: found.nu };
}

/** Fewer readings of a rest say nothing. */
const fewestAtRest = 5;

/**
 * How much a stem wanders on a gear that stands, beyond each reading's own noise, mm: a stand that sways shows there what no
 * look at the turn can tell from the gear. Where only a press tells the rest, one whose readings go over half the runout was none.
 */
export function swayAtRest(
  { rests, placed }: Pick<Ride, 'rests' | 'placed'>,
  tir: number,
  white: number,
  resolution: number,
): number {
  let [squares, chance, n] = [0, 0, 0];
  for (const rest of rests) {
    const values = rest.map(({ value }) => value);
    if (values.length < fewestAtRest) continue;
    if (!placed && Math.max(...values) - Math.min(...values) > Math.max(tir / 2, 3 * resolution)) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const own = white ** 2 + resolution ** 2 / 12;
    const degrees = values.length - 1;
    const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) - degrees * own;
    squares += shortRest(rest) ** 2 * square;
    chance += shortRest(rest) ** 4 * 2 * degrees * own ** 2;
    n += degrees;
  }
  // The spread of a few readings is itself a matter of chance: one in twenty goes beyond this without any sway.
  return squares <= 1.65 * Math.sqrt(chance) ? 0 : Math.sqrt(squares / n);
}

/** A rest seldom lasts for a whole period of what sways, and the shorter it is, the less of that it shows (our choice). */
function shortRest(rest: readonly Point[]): number {
  const lasted_s = (rest.at(-1)?.t ?? 0) - (rest[0]?.t ?? 0);
  return restIsShort * Math.min(3, Math.max(1, wholeSway_s / Math.max(lasted_s, 1e-9)));
}

const restIsShort = 1.5;
const wholeSway_s = 2;

/**
 * Share of its standard deviation that such noise keeps in the middle of a parabola laid through `half_s` to each side:
 * all of it where it remembers longer than that, √(2.25·memory/half) where it forgets sooner (derived, as 2.25/n is for
 * noise without memory).
 */
export const keptBySmoothing = ({ memory_s }: Wandering, half_s: number): number =>
  memory_s <= 0 ? 0 : Math.sqrt(1 / (1 + half_s / (2.25 * memory_s)));

/** Seconds of the ride that `share` of its readings take. */
export const secondsOf = (points: readonly Point[], share: number): number => share * points.length * paceOf(points);
