import { middleOf, numberAt, sortFirst } from './order.ts';

/**
 * How much the readings scatter while nothing moves, learned from the stream itself.
 *
 * Until rests are known: the middle of the last first and second differences. A hand's stroke spoils the first, a
 * jump from rest to rest the second; the smaller of the two is the quieter witness. Once rests are known their own
 * scatter takes over, because it is the thing itself.
 */
export interface Noise {
  readonly resolution: number;
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly scratch: Float64Array;
  heard: number;
  before: number;
  beforeThat: number;
  /** Standard deviation from the differences. */
  fromDifferences: number;
  /** Sum of squares inside rests, with its degrees of freedom. */
  squares: number;
  degrees: number;
  /** Standard deviation of one reading at rest; see {@link settled}. */
  sd: number;
}

const MEMORY = 32;
/** The median of |difference| of normal readings in standard deviations: 0.6745·√2, and 0.6745·√6 for second ones (derived). */
const MEDIAN_FIRST = 0.6745 * Math.SQRT2;
const MEDIAN_SECOND = 0.6745 * Math.sqrt(6);
/** Rests outweigh the differences once they hold about this many degrees of freedom. */
const WEIGHT_OF_DIFFERENCES = 12;
/** Beyond this the older half is forgotten, so that a gauge that grows noisier is noticed. */
const LONGEST_MEMORY = 2000;
/** With this many degrees of freedom, a rest this many times as restless (in squares) is a bounce or a creep, not noise. */
const ENOUGH = 24;
const FOREIGN = 6;
/** A quiet display still rounds: its readings scatter by this share of a step, a little more than δ/√12. */
const ROUNDING = 0.35;

/**
 * A gauge is expected to scatter by two steps of its display at most. More than three is taken for movement: strokes that
 * are never held look like noise, and would hide in it.
 */
const MOST_STEPS = 3;

export const roundingOf = (resolution: number): number => ROUNDING * resolution;

export const newNoise = (resolution: number): Noise => ({
  resolution,
  first: new Float64Array(MEMORY),
  second: new Float64Array(MEMORY),
  scratch: new Float64Array(MEMORY),
  heard: 0,
  before: 0,
  beforeThat: 0,
  fromDifferences: resolution,
  squares: 0,
  degrees: 0,
  sd: resolution,
});

/** How often the medians are renewed: at every eighth reading at first, later less often, which keeps a reading cheap. */
const isDue = (heard: number): boolean => heard % 16 === 0 || (heard % 8 === 0 && heard < 2 * MEMORY);

/** Takes in one reading. */
export function hear(noise: Noise, value: number): void {
  const slope = value - noise.before;
  const place = noise.heard % MEMORY;
  noise.first[place] = Math.abs(slope);
  noise.second[place] = Math.abs(slope - (noise.before - noise.beforeThat));
  noise.beforeThat = noise.before;
  noise.before = value;
  noise.heard += 1;
  if (isDue(noise.heard)) renew(noise);
}

function renew(noise: Noise): void {
  const first = middle(noise, noise.first) / MEDIAN_FIRST;
  const second = middle(noise, noise.second) / MEDIAN_SECOND;
  noise.fromDifferences = Math.min(first, second);
  noise.sd = settled(noise);
}

/** The first two differences have no whole past and are left out. */
function middle(noise: Noise, differences: Float64Array): number {
  const from = noise.heard <= MEMORY ? 2 : 0;
  const many = Math.min(noise.heard, MEMORY) - from;
  for (let index = 0; index < many; index += 1) noise.scratch[index] = numberAt(differences, from + index);
  sortFirst(noise.scratch, many);
  return middleOf(noise.scratch, many);
}

/** Takes in the scatter of one rest: squares about its mean, and their degrees of freedom. */
export function learn(noise: Noise, squares: number, degrees: number): void {
  // A stem that hangs free may show no noise at all, and a quiet gauge at rest neither: that one needs no learning.
  if (squares === 0) return;
  if (noise.degrees > ENOUGH && squares > FOREIGN * degrees * (noise.squares / noise.degrees)) return;
  noise.squares += squares;
  noise.degrees += degrees;
  if (noise.degrees >= LONGEST_MEMORY) {
    noise.squares /= 2;
    noise.degrees /= 2;
  }
  noise.sd = settled(noise);
}

/**
 * Standard deviation of one reading at rest, rounding of the display included, never less than that. A lift makes the
 * differences large for a while: once rests are known they count for no more than twice what rests say.
 */
function settled({ resolution, fromDifferences, squares, degrees }: Readonly<Noise>): number {
  let heard = fromDifferences * fromDifferences;
  if (degrees > ENOUGH) heard = Math.min(heard, (4 * squares) / degrees);
  const variance = (WEIGHT_OF_DIFFERENCES * heard + squares) / (WEIGHT_OF_DIFFERENCES + degrees);
  return Math.min(MOST_STEPS * resolution, Math.max(roundingOf(resolution), Math.sqrt(variance)));
}

/** Standard deviation of one reading at rest. */
export const noiseOf = ({ sd }: Readonly<Noise>): number => sd;
