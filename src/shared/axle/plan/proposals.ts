import { solveUpper, squares } from '../../basics/cholesky.ts';
import { held, reachOf, type Stop } from './ridge.ts';
import type { Steady } from './steady.ts';
import { type Case, type Tried, tryGuess } from './tried.ts';

/** A guess drawn along the ridge, and the logarithm of what it counts, but for a constant. */
interface Proposal {
  readonly tried: Tried;
  readonly weight: number;
}

/** So many for each axle wanted. */
const proposalsEach = 3;
/** Weights are told at most this far apart (logarithm): one lucky proposal must not drown the others. */
const heaviest = 2;
/**
 * Stops are visited as often as this power of how probable they are, so that the ends of the ridge are looked at too:
 * what a stop's straight picture says of its probability is rough where an edge comes and goes.
 */
const flattened = 0.6;

/**
 * Guesses along the ridge, as often as they explain what was read: the straight picture at each stop proposes, and each
 * proposal counts by how well it really explains the readings.
 */
export function drawnAlongRidge(about: Case, stops: readonly Stop[], count: number, chance: Steady): readonly Tried[] {
  const visits = visitsTo(stops, count * proposalsEach);
  const proposals = visits.flatMap(({ times, ...visit }) =>
    Array.from({ length: times }, () => proposalAt(about, visit, chance)),
  );
  return resampled(proposals, count);
}

interface Visit {
  readonly stop: Stop;
  /** What the stop stands for, in standard units of the held unknown about it. */
  readonly from: number;
  readonly to: number;
  /** What makes up for how often it is visited (logarithm). */
  readonly weight: number;
}

function visitsTo(stops: readonly Stop[], count: number): readonly (Visit & { readonly times: number })[] {
  const most = stops.reduce((top, { weight }) => Math.max(top, weight), Number.NEGATIVE_INFINITY);
  const reach = reachOf(stops);
  const visits = stops.map((stop, n) => ({
    stop,
    ...(reach[n] ?? { from: 0, to: 0 }),
    weight: (1 - flattened) * (stop.weight - most),
  }));
  const shares = visits.map(({ stop, from, to }) => Math.exp(flattened * (stop.weight - most)) * (to - from));
  const each = shares.reduce((sum, share) => sum + share, 0) / count;
  let [sum, taken] = [0, 0];
  return visits.map((visit, n) => {
    sum += (shares[n] ?? 0) / each;
    const times = Math.round(sum) - taken;
    taken += times;
    return { ...visit, times };
  });
}

function proposalAt(about: Case, { stop, from, to, weight }: Visit, chance: Steady): Proposal {
  const on = from + (to - from) * chance.even();
  const { likeliest, precision, along } = stop;
  const step = likeliest.guess.map((_, k) => (k === held ? 0 : chance.normal()));
  const away = solveUpper(precision, step);
  const tried = tryGuess(
    about,
    likeliest.guess.map((value, k) => value + on * (along[k] ?? 0) + (away[k] ?? 0)),
  );
  return { tried, weight: Math.min(heaviest, weight + (squares(step) - tried.cost + likeliest.cost) / 2) };
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
