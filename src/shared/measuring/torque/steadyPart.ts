import { median } from '../../basics/statistics.ts';
import { breakawayWithin_s } from './breakaway.ts';

/** First and last index of a stretch. */
export interface Part {
  readonly from: number;
  readonly to: number;
}

/**
 * Steady turning: after the first peak has come down to how the middle of the pull runs, and before the hand lets go.
 * The band is as wide as the middle itself swings.
 * @param values torques of the whole pull, evenly `step` seconds apart
 * @param noise standard deviation of one reading
 * @returns undefined where nothing of it was steady.
 */
export function steadyPart(
  values: readonly number[],
  step: number,
  noise: number,
  resolution: number,
): Part | undefined {
  const middle = values.slice(Math.floor(values.length * 0.3), Math.ceil(values.length * 0.9));
  if (middle.length < 3) return undefined;
  const level = median(middle);
  const swing = median(middle.map((value) => Math.abs(value - level)));
  const band = 3 * swing + 2 * resolution + 3 * noise;
  const within = (value: number) => Math.abs(value - level) <= band;
  const early = Math.ceil(breakawayWithin_s / Math.max(step, 1e-9));
  const top = highest(values.slice(0, Math.min(early, Math.ceil(values.length / 2))));
  const settled = values.findIndex((value, index) => index >= top && within(value));
  const last = values.findLastIndex(within);
  // The last of the peak is still fading when it enters the band, and the hand slackens before it lets go.
  const fade = Math.ceil(fading_s / Math.max(step, 1e-9));
  return settled < 0 || last - fade <= settled + fade ? undefined : { from: settled + fade, to: last - fade };
}

const fading_s = 0.12;

const highest = (values: readonly number[]): number =>
  values.reduce((top, value, index) => (value > (values[top] ?? -Infinity) ? index : top), 0);
