/**
 * A hand at work is a chain of stretches in time; a gauge looks at it in moments. Everything is a function of time
 * alone, so the same motion can be sampled by a slow gauge, by a fast one, or by one without any fault.
 */

/** What the hand does. Only `rest-low` and `rest-high` are rests of a rock: `between`, `hanging` and `hesitating` only look like it. */
export type Doing =
  | 'idle'
  | 'between'
  | 'rest-low'
  | 'rest-high'
  | 'moving'
  | 'bouncing'
  | 'hesitating'
  | 'lifting'
  | 'hanging'
  | 'lowering'
  | 'turning'
  | 'pausing'
  | 'breaking-away'
  | 'letting-go';

/** One thing the hand does for a while. `at` gives what the gauge feels: mm of stem, or N·m, after that many seconds of it. */
export interface Stretch {
  readonly doing: Doing;
  readonly seconds: number;
  readonly at: (elapsed_s: number) => number;
  /** Angle of what turns, where something does: ring gear, or pinion for torque. */
  readonly angleAt?: (elapsed_s: number) => number;
  /** Which station of a session, from 0. */
  readonly station?: number;
  /** Which rock of the station, from 0; its two rests carry the same number. */
  readonly rock?: number;
}

/** What a gauge meets at one instant. */
export interface Moment {
  readonly t_s: number;
  readonly value: number;
  readonly doing: Doing;
  readonly angle_rad?: number;
  readonly station?: number;
  readonly rock?: number;
}

/** Holds one value for a while. */
export const hold = (doing: Doing, seconds: number, value: number): Stretch => ({ doing, seconds, at: () => value });

/** Smooth start and smooth stop, 0…1 over 0…1. */
export const eased = (share: number): number => share * share * (3 - 2 * share);

/** A stroke that meets its stop at full speed, as a quick hand does: nothing slows it before the tooth does. */
export const struck = (share: number): number => share * share;

/** Goes from one value to another. */
export function move(doing: Doing, seconds: number, from: number, to: number, shape = eased): Stretch {
  return { doing, seconds, at: (elapsed_s) => from + (to - from) * shape(Math.min(1, elapsed_s / seconds)) };
}

export const durationOf = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, stretch) => sum + stretch.seconds, 0);

function momentOf(stretch: Stretch, t_s: number, elapsed_s: number): Moment {
  const { doing, station, rock, angleAt } = stretch;
  return {
    t_s,
    value: stretch.at(elapsed_s),
    doing,
    ...(angleAt === undefined ? {} : { angle_rad: angleAt(elapsed_s) }),
    ...(station === undefined ? {} : { station }),
    ...(rock === undefined ? {} : { rock }),
  };
}

/**
 * Looks at a motion `rate_Hz` times a second, the first time at `start_s`; `t_s` counts from the motion's beginning.
 * Times are multiples of the interval, never sums of it, so an hour of readings does not drift.
 */
export function* moments(stretches: Iterable<Stretch>, rate_Hz: number, start_s = 0): Generator<Moment> {
  let began_s = 0;
  let count = 0;
  for (const stretch of stretches) {
    const ends_s = began_s + stretch.seconds;
    for (let t_s = start_s + count / rate_Hz; t_s < ends_s; t_s = start_s + count / rate_Hz) {
      yield momentOf(stretch, t_s, t_s - began_s);
      count += 1;
    }
    began_s = ends_s;
  }
}
