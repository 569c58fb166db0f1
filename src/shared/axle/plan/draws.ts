import { type Axle, axleFrom, type Guess, guessSize } from './guess.ts';
import type { Belief } from './learn.ts';
import { solveUpper, squares } from '../../basics/cholesky.ts';

/** Proposals made, in pairs on either side of the likeliest axle, for each axle kept. */
const proposalsEach = 8;

/**
 * Axles that would all have shown what was read, as many as the belief deserves of each kind. The normal picture about
 * the likeliest axle only proposes; each proposal counts by how well it really explains the readings (importance
 * sampling), because film, relief and position trade against each other along a bent ridge. Evenly filling sequences
 * stand in for chance, so that the same trials always get the same plan.
 * @param costOf squared misfits and departures of a guess.
 */
export function drawAxles(belief: Belief, count: number, costOf: (guess: Guess) => number): readonly Axle[] {
  const steps = Array.from({ length: (count * proposalsEach) / 2 }, (_, n) => normals(n + 1));
  const proposals = steps.flatMap((step) => [1, -1].map((side) => proposalAt(belief, step, side, costOf)));
  return resampled(proposals, count).map((guess) => axleFrom(belief.prior, guess));
}

interface Proposal {
  readonly guess: Guess;
  /** Logarithm of its weight, but for a constant. */
  readonly weight: number;
}

function proposalAt(
  { precision, likeliest }: Belief,
  step: Float64Array,
  side: number,
  costOf: (guess: Guess) => number,
): Proposal {
  const away = solveUpper(precision, step);
  const guess = likeliest.map((value, index) => value + side * (away[index] ?? 0));
  return { guess, weight: (squares(step) - costOf(guess)) / 2 };
}

/** So many of the proposals, each as often as its weight says: evenly spaced marks along their running sum. */
function resampled(proposals: readonly Proposal[], count: number): Guess[] {
  const heaviest = proposals.reduce((most, { weight }) => Math.max(most, weight), Number.NEGATIVE_INFINITY);
  const weights = proposals.map(({ weight }) => Math.exp(weight - heaviest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let [sum, taken] = [0, 0];
  return proposals.flatMap(({ guess }, index) => {
    sum += ((weights[index] ?? 0) / total) * count;
    const times = Math.max(0, Math.ceil(sum - 0.5) - taken);
    taken += times;
    return Array.from({ length: times }, () => guess);
  });
}

/** Roots of whole numbers that share no factor fill a box evenly (Weyl sequences). */
const roots = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89].map(
  Math.sqrt,
);

/** The n-th point of a sequence of independent standard normals, two by two (Box–Muller). */
function normals(n: number): Float64Array {
  const part = (index: number): number => (n * (roots[index] ?? 1)) % 1;
  return Float64Array.from({ length: guessSize }, (_, index) => {
    const pair = index - (index % 2);
    const size = Math.sqrt(-2 * Math.log(1 - part(pair)));
    return size * (index % 2 === 0 ? Math.cos : Math.sin)(2 * Math.PI * part(pair + 1));
  });
}
