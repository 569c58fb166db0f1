import { solveUpper, squares } from '../../basics/cholesky.ts';
import { type Axle, axleFrom } from './guess.ts';
import type { Belief } from './learn.ts';
import { type BacklashLines, backlashLines, settled, unsettled } from './settled.ts';
import { steady, type Steady } from './steady.ts';
import { type Case, type Tried, tryGuess } from './tried.ts';

/** First proposals for each axle kept; a few walks after them put right what the normal picture got wrong. */
const proposalsEach = 3;
const walks = 8;

/**
 * Axles that would all have shown what was read, as many as the belief deserves of each kind. The normal picture about
 * the likeliest axle proposes and each proposal counts by how well it really explains the readings; then every axle
 * walks among the others, because film, relief and position trade against each other along a bent ridge that no normal
 * picture follows (Metropolis steps along differences of two others: ter Braak 2006, from memory).
 */
export function drawAxles(belief: Belief, count: number): readonly Axle[] {
  const [{ about }, chance] = [belief, steady()];
  const lines = backlashLines(about.prior, about.readings);
  const proposals = Array.from({ length: count * proposalsEach }, () => proposalOf(belief, chance));
  let now = resampled(proposals, count).map((tried) => settled(about, lines, tried));
  for (let walk = 0; walk < walks; walk += 1) now = walked({ about, lines, chance }, now, walk);
  return now.map((tried) => axleFrom(about.prior, unsettled(lines, tried, chance)));
}

interface Proposal {
  readonly tried: Tried;
  /** Logarithm of its weight, but for a constant. */
  readonly weight: number;
}

/** Weights are told at most this far apart (logarithm): one lucky proposal must not drown the others. */
const heaviest = 4;

function proposalOf({ about, precision, likeliest }: Belief, chance: Steady): Proposal {
  const step = likeliest.guess.map(() => chance.normal());
  const away = solveUpper(precision, step);
  const tried = tryGuess(
    about,
    likeliest.guess.map((value, index) => value + (away[index] ?? 0)),
  );
  return { tried, weight: Math.min(heaviest, (squares(step) - tried.cost + likeliest.cost) / 2) };
}

/** So many of the proposals, each as often as its weight says: evenly spaced marks along their running sum. */
function resampled(proposals: readonly Proposal[], count: number): readonly Tried[] {
  const weights = proposals.map(({ weight }) => Math.exp(weight));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let [sum, taken] = [0, 0];
  return proposals.flatMap(({ tried }, index) => {
    sum += ((weights[index] ?? 0) / total) * count;
    const times = Math.max(0, Math.ceil(sum - 0.5) - taken);
    taken += times;
    return Array.from({ length: times }, () => tried);
  });
}

interface Walk {
  readonly about: Case;
  readonly lines: BacklashLines;
  readonly chance: Steady;
}

/** Every axle once: a step along the difference of two others, with the backlash that goes best with it. */
function walked({ about, lines, chance }: Walk, now: readonly Tried[], walk: number): Tried[] {
  const after = [...now];
  after.forEach((here, index) => {
    const [one, other] = [after[chance.below(after.length)], after[chance.below(after.length)]];
    const size = here.guess.length;
    // Every third walk is a long one, that crosses from one end of a ridge to the other.
    const stride = (walk % 3 === 2 ? 0.9 : 2.38 / Math.sqrt(2 * size)) * (0.6 + 0.8 * chance.even());
    const guess = here.guess.map(
      (value, k) => value + stride * ((one?.guess[k] ?? 0) - (other?.guess[k] ?? 0)) + 0.03 * chance.normal(),
    );
    const tried = settled(about, lines, tryGuess(about, guess));
    if (Math.log(1 - chance.even()) < (here.cost - tried.cost) / 2) after[index] = tried;
  });
  return after;
}
