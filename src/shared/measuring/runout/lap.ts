import { at } from '../../basics/at.ts';
import { choleskyOf, dot, solveLower, solveUpper } from '../../basics/cholesky.ts';
import { grouped, type Point } from './trace.ts';

/** What a ride of which only the order is known says about the turn it was. Lengths in mm. */
export interface Lap {
  /** Chance that it was less than a turn. */
  readonly partChance: number;
  /** By how much a whole turn's runout differs from what was seen: mean, and root mean square. */
  readonly more: number;
  readonly moreRms: number;
  /** How far the same place reads apart a turn later: weighed over the turns it may have been. */
  readonly apart: number;
  /** Of a turn or more, how many turns explain the ride best. */
  readonly turns: number;
  /** The least that the same place reads apart for any number of turns that explains the ride about as well. */
  readonly atLeastApart: number;
}

/**
 * Weighs how many turns a ride may have been, from 0.4 to 1.6, by how well a surface of three lobes under a base that
 * creeps evenly explains it. What nobody can tell from the readings the prior says (our choices): presses mean a turn
 * and a bit in nine of ten, without them six in ten; the first lobe is the largest; most bases do not creep.
 *
 * @param points in the order of time, rests before and after left out
 * @returns undefined for too few points.
 */
export function lapOf(points: readonly Point[], marked: boolean, noise: number): Lap | undefined {
  const few = grouped(points, Math.ceil(points.length / mostPoints));
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || few.length < fewestPoints || last.t <= first.t) return undefined;
  const ride = few.map(({ t, value }) => ({ share: (t - first.t) / (last.t - first.t), value: value - first.value }));
  const scale = scaleOf(ride, noise);
  const guesses = turnsTried.map((turns) => explained(ride, turns, scale));
  const beliefs = guesses.map((guess) => guess.likelihood + priorOf(guess.turns, marked));
  const strongest = Math.max(...beliefs);
  const weights = beliefs.map((belief) => Math.exp(belief - strongest));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const meanOf = (figure: (guess: Guess) => number): number =>
    guesses.reduce((sum, guess, index) => sum + (weights[index] ?? 0) * figure(guess), 0) / all;
  return {
    partChance: meanOf(({ turns }) => (turns < whole ? 1 : 0)),
    more: meanOf(({ more }) => more),
    moreRms: Math.sqrt(meanOf(({ more }) => more ** 2)),
    apart: meanOf(({ apart }) => apart),
    ...wholeTurnsIn(guesses),
  };
}

function wholeTurnsIn(guesses: readonly Guess[]): Pick<Lap, 'turns' | 'atLeastApart'> {
  const wholes = guesses.filter(({ turns }) => turns >= whole);
  const best = wholes.reduce((best, guess) => (guess.likelihood > best.likelihood ? guess : best));
  const asGood = wholes.filter(({ likelihood }) => likelihood > best.likelihood - asGoodAs);
  return { turns: best.turns, atLeastApart: Math.min(...asGood.map(({ apart }) => Math.abs(apart))) };
}

/** Odds of seven to one are no proof. */
const asGoodAs = 2;
const mostPoints = 48;
const fewestPoints = 12;
const turnsTried = Array.from({ length: 21 }, (_, index) => 0.4 + 0.06 * index);
/** A hand that stops ten degrees short has turned once round. */
const whole = 0.97;

/** Logarithm of how much is believed beforehand, per trial value of the turns. */
function priorOf(turns: number, marked: boolean): number {
  const [parts, wholes] = [
    turnsTried.filter((one) => one < whole).length,
    turnsTried.filter((one) => one >= whole).length,
  ];
  const believed = marked ? 0.9 : 0.6;
  // More than a turn and a third is rare.
  const rare = turns > 1.34 ? 0.2 : 1;
  return Math.log(turns < whole ? (1 - believed) / parts : (rare * believed) / wholes);
}

interface Moment {
  /** Share of the ride's time. */
  readonly share: number;
  readonly value: number;
}

interface Scale {
  /** What a reading may be off the surface by: noise, finer waves, a hand that turns unevenly. */
  readonly off: number;
  /** Readings that are off independently of each other: what makes them differ lasts longer than one. */
  readonly independent: number;
  /** Standard deviations of height, creep, and of cosine and sine of each lobe, as believed beforehand. */
  readonly spreads: readonly number[];
}

function scaleOf(ride: readonly Moment[], noise: number): Scale {
  const values = ride.map(({ value }) => value);
  const range = Math.max(...values) - Math.min(...values);
  const lobe = range / 2;
  return {
    off: Math.max(1e-9, Math.hypot(noise, 0.04 * range)),
    independent: Math.min(ride.length, 24),
    spreads: [2 * range, creep_mm, lobe, lobe, 0.2 * lobe, 0.2 * lobe, 0.08 * lobe, 0.08 * lobe].map((one) =>
      Math.max(one, 1e-9),
    ),
  };
}

const creep_mm = 0.006;

interface Guess {
  readonly turns: number;
  /** Logarithm, up to a constant. */
  readonly likelihood: number;
  readonly more: number;
  readonly apart: number;
}

/** The surface that explains the ride best if it was so many turns, and what it says beyond what was seen. */
function explained(ride: readonly Moment[], turns: number, scale: Scale): Guess {
  const rows = ride.map(({ share }) => rowAt(share, turns, scale.spreads));
  const weight = scale.independent / ride.length / scale.off ** 2;
  const size = scale.spreads.length;
  const normal = new Float64Array(size * size);
  const right = new Float64Array(size);
  let square = 0;
  for (const [index, row] of rows.entries()) {
    const value = ride[index]?.value ?? 0;
    square += weight * value * value;
    for (let i = 0; i < size; i += 1) {
      right[i] = at(right, i) + weight * at(row, i) * value;
      for (let j = 0; j < size; j += 1)
        normal[i * size + j] = at(normal, i * size + j) + weight * at(row, i) * at(row, j);
    }
  }
  for (let i = 0; i < size; i += 1) normal[i * size + i] = at(normal, i * size + i) + 1;
  const lower = choleskyOf(normal, size);
  const half = solveLower(lower, right);
  const found = solveUpper(lower, half);
  let volume = 0;
  for (let i = 0; i < size; i += 1) volume += Math.log(at(lower, i * size + i));
  return {
    turns,
    likelihood: -(square - dot(half, half)) / 2 - volume,
    more: rangeOf(found, turns, scale.spreads) - seenRange(rows, found),
    apart: apartBy(ride, turns),
  };
}

/** Height, creep and three lobes at this share of the ride, each by its spread. */
function rowAt(share: number, turns: number, spreads: readonly number[]): Float64Array {
  const angle = 2 * Math.PI * turns * share;
  const plain = [
    1,
    share,
    Math.cos(angle),
    Math.sin(angle),
    Math.cos(2 * angle),
    Math.sin(2 * angle),
    Math.cos(3 * angle),
    Math.sin(3 * angle),
  ];
  return Float64Array.from(plain, (column, index) => column * (spreads[index] ?? 0));
}

function seenRange(rows: readonly Float64Array[], found: Float64Array): number {
  const heights = rows.map((row) => dot(row, found));
  return Math.max(...heights) - Math.min(...heights);
}

/** Runout of the whole surface, its creep taken off. */
function rangeOf(found: Float64Array, turns: number, spreads: readonly number[]): number {
  const still = spreads.map((spread, index) => (index === 1 ? 0 : spread));
  const heights = Array.from({ length: 36 }, (_, place) => dot(rowAt(place / 36 / turns, turns, still), found));
  return Math.max(...heights) - Math.min(...heights);
}

/** Mean of how far the places that were seen twice read apart; for a turn and less its end against its begin. */
function apartBy(ride: readonly Moment[], turns: number): number {
  if (turns < whole) return 0;
  const again = ride.filter(({ share }) => share >= 1 / turns);
  const ends = again.length === 0 ? ride.slice(-1) : again;
  const off = ends.map(({ share, value }) => value - heightAt(ride, share - 1 / turns));
  return off.reduce((sum, one) => sum + one, 0) / off.length;
}

/** Between two readings, or carried on from the first two: the ride began half a group before the first. */
function heightAt(ride: readonly Moment[], share: number): number {
  const after = Math.max(
    1,
    ride.findIndex((moment) => moment.share >= share),
  );
  const [before, next] = [at(ride, after - 1), at(ride, after)];
  const apart = next.share - before.share;
  // Readings that waited for a busy machine arrive at one instant.
  return apart <= 0 ? next.value : before.value + ((share - before.share) / apart) * (next.value - before.value);
}
