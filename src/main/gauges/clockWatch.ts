import type { Clock } from '../clock.ts';

/** Shorter than this is the usual creep and correction of a computer's clock. */
const worthSaying_ms = 2000;

/**
 * Compares the two clocks. When the wall clock runs away from the monotonic one the computer slept or its
 * clock was set; readings on either side then do not belong to one movement. Gives a sentence, or nothing.
 */
export function clockWatch(clock: Clock): () => string | undefined {
  const apart = (): number => clock.wall_ms() - clock.monotonic_s() * 1000;
  let before = apart();
  return () => {
    const now = apart();
    const change_ms = now - before;
    if (Math.abs(change_ms) < worthSaying_ms) return undefined;
    before = now;
    const size = `${Math.abs(Math.round(change_ms / 1000))} s`;
    return change_ms > 0
      ? `the computer slept, or its clock was set forward by ${size}`
      : `the clock was set back by ${size}`;
  };
}
