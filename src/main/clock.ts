/**
 * The bench's two clocks. The monotonic one orders readings and never turns back; the wall clock says
 * which day it was, and can be set wrong or set back while the bench runs.
 */
export interface Clock {
  /** Seconds since some fixed moment of this run; never goes back. */
  readonly monotonic_s: () => number;
  /** Milliseconds since 1970-01-01 UTC, as the computer believes it. */
  readonly wall_ms: () => number;
}

export const systemClock: Clock = {
  monotonic_s: () => performance.now() / 1000,
  wall_ms: () => Date.now(),
};
