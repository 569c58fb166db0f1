import { extremesOf } from '../runout/extremes.ts';
import { periodOf } from '../../basics/periodicity.ts';
import { addInOrder, type Bin, copyOf, filledBins, orderedProfile, type Profile } from '../runout/profile.ts';
import { mean, median } from '../../basics/statistics.ts';

/** One pull at the shaft, from first force to letting go; kept in a fixed number of bins. */
export interface Pull {
  readonly profile: Profile;
  /** The gauge was seen at rest before it: only then is the first peak the breakaway. */
  readonly fromRest: boolean;
  readonly began: number;
  ended: number;
  /** Largest reading of the first moments, and by how much it rose above the one before it. */
  peak: number;
  rise: number;
  last: number;
}

export const newPull = (t: number, fromRest: boolean): Pull => ({
  profile: orderedProfile(),
  fromRest,
  began: t,
  ended: t,
  peak: 0,
  rise: 0,
  last: 0,
});

/** A shaft breaks away within this time of the first force, or it is not turned by hand. */
export const breakawayWithin_s = 1.2;

export function addToPull(pull: Pull, t: number, value: number): void {
  addInOrder(pull.profile, value);
  pull.ended = t;
  if (t - pull.began <= breakawayWithin_s && value > pull.peak) {
    pull.peak = value;
    pull.rise = value - pull.last;
  }
  pull.last = value;
}

/** What a pull shows once it is over, or so far. */
export interface PullSummary {
  readonly seconds: number;
  /** Mean over the whole periods found, else over the time of steady turning. */
  readonly running: number;
  /** Largest minus smallest while turning steadily. */
  readonly ripple: number;
  /** Means of stretches of equal length: periods where they were found, else six parts of the time. */
  readonly stretches: readonly number[];
  readonly periods: number;
}

/** The shortest time of steady turning that says anything. */
const shortest_s = 0.5;
/** Nobody turns a pinion faster than two and a half times a second by hand. */
const quickestTurn_s = 0.4;

/**
 * Parts a pull into breakaway, steady turning and letting go, and averages the steady part.
 * @param noise standard deviation of one reading
 * @returns undefined when there was no steady turning, or too little of it.
 */
export function summaryOf(pull: Pull, noise: number, resolution: number): PullSummary | undefined {
  const bins = filledBins(pull.profile);
  const step = (pull.ended - pull.began) / Math.max(1, bins.length - 1);
  const steady = steadyPart(bins, step, noise, resolution);
  if (steady === undefined || (steady.to - steady.from) * step < shortest_s) return undefined;
  const values = bins.slice(steady.from, steady.to + 1).map(({ value }) => value);
  const period = periodOf(values, quickestTurn_s / step, noise / Math.sqrt(pull.profile.perBin));
  const stretches = period === undefined ? parts(values, 6) : wholePeriods(values, period);
  return {
    seconds: (steady.to - steady.from) * step,
    running: period === undefined ? mean(values) : mean(stretches),
    ripple: rippleOf(pull.profile, steady, noise, resolution),
    stretches,
    periods: period === undefined ? 0 : stretches.length,
  };
}

interface Part {
  readonly from: number;
  readonly to: number;
}

/**
 * Steady turning: after the first peak has come down to how the middle of the pull runs, and before the hand lets go.
 * The band is as wide as the middle itself swings.
 */
function steadyPart(bins: readonly Bin[], step: number, noise: number, resolution: number): Part | undefined {
  const middle = bins.slice(Math.floor(bins.length * 0.3), Math.ceil(bins.length * 0.9)).map(({ value }) => value);
  if (middle.length < 3) return undefined;
  const level = median(middle);
  const swing = median(middle.map((value) => Math.abs(value - level)));
  const band = 3 * swing + 2 * resolution + 3 * noise;
  const within = ({ value }: Bin) => Math.abs(value - level) <= band;
  const early = Math.ceil(breakawayWithin_s / Math.max(step, 1e-9));
  const top = highest(bins.slice(0, Math.min(early, Math.ceil(bins.length / 2))));
  const settled = bins.findIndex((bin, index) => index >= top && within(bin));
  const last = bins.findLastIndex(within);
  // The last of the peak is still fading when it enters the band, and the hand slackens before it lets go.
  const fade = Math.ceil(fading_s / Math.max(step, 1e-9));
  return settled < 0 || last - fade <= settled + fade ? undefined : { from: settled + fade, to: last - fade };
}

const fading_s = 0.12;

const highest = (bins: readonly Bin[]): number =>
  bins.reduce((top, { value }, index) => (value > (bins[top]?.value ?? -Infinity) ? index : top), 0);

function rippleOf(profile: Profile, { from, to }: Part, noise: number, resolution: number): number {
  const steady = copyOf(profile);
  for (const counts of steady.counts) {
    counts.fill(0, 0, from);
    counts.fill(0, to + 1);
  }
  for (const sums of steady.sums) {
    sums.fill(0, 0, from);
    sums.fill(0, to + 1);
  }
  const extremes = extremesOf(steady, noise, resolution, 1 / 90);
  return extremes === undefined ? 0 : extremes.high - extremes.low;
}

function parts(values: readonly number[], count: number): readonly number[] {
  const n = Math.min(count, values.length);
  return Array.from({ length: n }, (_, part) =>
    mean(values.slice(Math.floor((part * values.length) / n), Math.floor(((part + 1) * values.length) / n))),
  );
}

const wholePeriods = (values: readonly number[], period: number): readonly number[] =>
  Array.from({ length: Math.floor(values.length / period) }, (_, index) =>
    mean(values.slice(index * period, (index + 1) * period)),
  );
