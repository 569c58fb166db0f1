import { choleskyOf, dot, solveLower, solveUpper, type Square } from '../../basics/cholesky.ts';
import { sharedAt } from './guess.ts';
import type { Belief } from './learn.ts';
import { type System, systemAt } from './normalEquations.ts';
import { type Case, type Tried, tryGuess } from './tried.ts';

/**
 * Half the distance on a set twice as lively shows the same mark, so that what fits the readings lies along a bent ridge.
 * Held at one distance, everything else is nearly straight: the ridge is walked by the pinion's distance, and at each stop
 * the rest has its likeliest values and its normal picture (integrated nested Laplace approximation: Rue 2009, from memory).
 */
export interface Stop {
  readonly likeliest: Tried;
  /** Cholesky factor of the precision of all but the held unknown, whose own row is that of the unit matrix. */
  readonly precision: Square;
  /** How the likeliest guess goes along the ridge, for each standard unit of the held unknown. */
  readonly along: Float64Array;
  /** Logarithm of how probable this distance is, but for a constant. */
  readonly weight: number;
}

export const held = sharedAt('pinionOut');

/** Strides along the ridge (standard units): of the straight picture's spread, growing while the ridge stays level. */
const stride = { ofSpread: 0.8, least: 0.06, most: 0.45, grows: 1.35 } as const;
/** A stop this much less probable ends the walk (logarithm), and so does the end of what is believed beforehand. */
const lowest = 4.5;
const farthest = 4;
const stopsEachWay = 9;
/** Corrections with the slopes of one stop; its own likeliest values are then good to a tenth of their spread. */
const corrections = 5;

/** Stops along the ridge on both sides of the likeliest axle, in order of the held unknown. */
export function ridgeOf(belief: Belief): readonly Stop[] {
  const { about, likeliest, system } = belief;
  const top = stopAt(likeliest, system);
  const first = stride.ofSpread * spreadOf(belief);
  const down = walkFrom(about, top, -first);
  const up = walkFrom(about, top, first);
  return evenedOut([...down.toReversed(), top, ...up]);
}

/**
 * What a stop's straight picture leaves to the rest jumps where an edge of a flank comes and goes between two stops, which
 * no probability does: it is evened out over the neighbours. What each stop costs is known as it is.
 */
function evenedOut(stops: readonly Stop[]): readonly Stop[] {
  const rest = stops.map(({ weight, likeliest }) => weight + likeliest.cost / 2);
  return stops.map((stop, n) => {
    const here = rest[n] ?? 0;
    const evened = ((rest[n - 1] ?? here) + 2 * here + (rest[n + 1] ?? here)) / 4;
    return { ...stop, weight: evened - stop.likeliest.cost / 2 };
  });
}

/** Spread of the held unknown in the straight picture about the likeliest axle. */
function spreadOf({ precision, likeliest }: Belief): number {
  const unit = new Float64Array(likeliest.guess.length);
  unit[held] = 1;
  const lower = solveLower(precision, unit);
  return Math.sqrt(dot(lower, lower));
}

function walkFrom(about: Case, top: Stop, first: number): readonly Stop[] {
  const stops: Stop[] = [];
  let [here, by, best, below] = [top, bounded(first), top.weight, 0];
  while (stops.length < stopsEachWay) {
    const next = stopFrom(about, here, by);
    stops.push(next);
    best = Math.max(best, next.weight);
    const distance = Math.abs(next.likeliest.guess[held] ?? 0);
    below = next.weight < best - lowest ? below + 1 : 0;
    if (below === 2 || distance > farthest) break;
    if (Math.abs(next.weight - here.weight) < 1) by = bounded(by * stride.grows);
    here = next;
  }
  return stops;
}

const bounded = (by: number): number => Math.sign(by) * Math.min(stride.most, Math.max(stride.least, Math.abs(by)));

/** On along the ridge, then towards its crest. */
function stopFrom(about: Case, { likeliest, along }: Stop, by: number): Stop {
  let at = tryGuess(
    about,
    likeliest.guess.map((value, k) => value + by * (along[k] ?? 0)),
  );
  const system = systemAt(about, at);
  const stop = stopAt(at, system);
  let share = 1;
  for (let round = 0; round < corrections; round += 1) {
    const step = solveUpper(stop.precision, solveLower(stop.precision, withoutHeld(system.gradientAt(at))));
    const tried = tryGuess(
      about,
      at.guess.map((value, k) => value - share * (step[k] ?? 0)),
    );
    if (tried.cost < at.cost) at = tried;
    else share *= 0.4;
  }
  return { ...stop, likeliest: at, weight: stop.weight + (stop.likeliest.cost - at.cost) / 2 };
}

function stopAt(likeliest: Tried, { matrix }: System): Stop {
  const size = likeliest.guess.length;
  const rest = Float64Array.from(matrix);
  const across = new Float64Array(size);
  for (let k = 0; k < size; k += 1) {
    across[k] = k === held ? 0 : -(matrix[k * size + held] ?? 0);
    rest[k * size + held] = k === held ? 1 : 0;
    rest[held * size + k] = k === held ? 1 : 0;
  }
  const precision = choleskyOf(rest, size);
  const along = solveUpper(precision, solveLower(precision, across));
  along[held] = 1;
  let volume = 0;
  for (let k = 0; k < size; k += 1) volume += Math.log(precision[k * size + k] ?? 1);
  return { likeliest, precision, along, weight: -likeliest.cost / 2 - volume };
}

function withoutHeld(gradient: Float64Array): Float64Array {
  gradient[held] = 0;
  return gradient;
}

/** Logarithm of how probable the readings are, all along the ridge, but for a constant that all explanations share. */
export function evidenceOf(stops: readonly Stop[]): number {
  const reach = reachOf(stops);
  const most = stops.reduce((top, { weight }) => Math.max(top, weight), Number.NEGATIVE_INFINITY);
  const sum = stops.reduce((all, { weight }, n) => {
    const { from, to } = reach[n] ?? { from: 0, to: 0 };
    return all + Math.exp(weight - most) * (to - from);
  }, 0);
  return most + Math.log(sum);
}

/** What each stop stands for: half the way to its neighbours on both sides, in standard units of the held unknown. */
export function reachOf(stops: readonly Stop[]): readonly { readonly from: number; readonly to: number }[] {
  const at = (n: number): number | undefined => stops[n]?.likeliest.guess[held];
  return stops.map((_, n) => {
    const here = at(n) ?? 0;
    const [before, after] = [at(n - 1), at(n + 1)];
    const [down, up] = [here - (before ?? here), (after ?? here) - here];
    return { from: -(down || up) / 2, to: (up || down) / 2 };
  });
}
