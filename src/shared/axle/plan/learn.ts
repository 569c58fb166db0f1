import { type Axle, axleFrom, bearsOn, type Guess, guessSize, type Prior } from './guess.ts';
import type { Side } from './input.ts';
import { choleskyOf, dot, solveLower, solveUpper, type Square, squares } from '../../basics/cholesky.ts';
import { type Marks, misfitsOf, shownIn } from './misfit.ts';
import type { Reading } from './reading.ts';
import type { Sight } from './sight.ts';

/** What the readings have taught: the likeliest axle, how unsure it is, and how well it explains what was read. */
export interface Belief {
  readonly prior: Prior;
  readonly likeliest: Guess;
  /** Cholesky factor of the precision, in standard units. */
  readonly precision: Square;
  /** Sum of squared misfits at the likeliest axle. */
  readonly misfit: number;
  /** Logarithm of how probable the readings are under this prior, but for a constant. */
  readonly evidence: number;
}

/** What is being explained, and under which prior. */
interface Case {
  readonly sight: Sight;
  readonly prior: Prior;
  readonly readings: readonly Reading[];
}

/** A guess with what it would have shown. */
interface Tried {
  readonly guess: Guess;
  readonly marks: readonly Marks[];
  readonly misfits: Float64Array;
  /** Squared misfits and squared departures from the prior: what the likeliest axle makes smallest. */
  readonly cost: number;
}

const rounds = 12;
const enough = 0.02;

/**
 * Finds the axle that explains the readings best and how sharply they determine it: damped Gauss–Newton from what a
 * set is usually like, then the normal approximation about the end (Laplace).
 */
export function learn(sight: Sight, prior: Prior, readings: readonly Reading[]): Belief {
  const about: Case = { sight, prior, readings };
  let best = tryGuess(about, new Float64Array(guessSize));
  let system = normalEquations(about, best);
  let damping = 0.1;
  for (let round = 0; round < rounds; round += 1) {
    const tried = tryGuess(about, stepFrom(best.guess, system, damping));
    const gained = best.cost - tried.cost;
    if (gained <= 0) {
      damping *= 6;
      continue;
    }
    [best, system, damping] = [tried, normalEquations(about, tried), damping / 4];
    if (gained < enough) break;
  }
  return beliefFrom(prior, best, system);
}

function beliefFrom(prior: Prior, best: Tried, { matrix }: System): Belief {
  const precision = choleskyOf(matrix, guessSize);
  let volume = 0;
  for (let i = 0; i < guessSize; i += 1) volume += Math.log(precision[i * guessSize + i] ?? 1);
  return {
    prior,
    likeliest: best.guess,
    precision,
    misfit: squares(best.misfits),
    evidence: -best.cost / 2 - volume,
  };
}

/** Squared misfits and squared departures from the prior: twice how improbable a guess is after the readings. */
export const costOf = (sight: Sight, prior: Prior, readings: readonly Reading[], guess: Guess): number =>
  tryGuess({ sight, prior, readings }, guess).cost;

function tryGuess({ sight, prior, readings }: Case, guess: Guess): Tried {
  const axle = axleFrom(prior, guess);
  const marks = readings.map((reading) => ({
    drive: shownIn(sight, axle, 'drive', reading),
    coast: shownIn(sight, axle, 'coast', reading),
  }));
  const misfits = allMisfits(sight, axle, readings, marks);
  return { guess, marks, misfits, cost: squares(misfits) + squares(guess) };
}

const allMisfits = (sight: Sight, axle: Axle, readings: readonly Reading[], marks: readonly Marks[]): Float64Array =>
  Float64Array.from(
    readings.flatMap((reading, index) => {
      const shown = marks[index];
      return shown === undefined ? [] : misfitsOf(sight, axle, reading, shown);
    }),
  );

/** Precision and slope of the cost at a guess. */
interface System {
  readonly matrix: Square;
  readonly gradient: Float64Array;
}

/** JᵀJ + 1 and Jᵀr + guess: the prior is one more reading of 0 ± 1 for every unknown. */
function normalEquations(about: Case, at: Tried): System {
  const slopes = Array.from({ length: guessSize }, (_, index) => slopesAlong(about, at, index));
  const matrix = new Float64Array(guessSize * guessSize);
  const gradient = Float64Array.from(at.guess);
  slopes.forEach((slope, i) => {
    gradient[i] = (gradient[i] ?? 0) + dot(slope, at.misfits);
    slopes.forEach((other, j) => {
      matrix[i * guessSize + j] = dot(slope, other) + (i === j ? 1 : 0);
    });
  });
  return { matrix, gradient };
}

/** Step for derivatives, in standard units: wide enough to see past the grain of a thinned flank. */
const secant = 0.15;

/** How every misfit changes with one unknown. Only the marks that it bears on are brought together again. */
function slopesAlong({ sight, prior, readings }: Case, at: Tried, index: number): Float64Array {
  const moved = Float64Array.from(at.guess);
  moved[index] = (moved[index] ?? 0) + secant;
  const axle = axleFrom(prior, moved);
  const touched = (side: Side): boolean => bearsOn(index) === 'both' || bearsOn(index) === side;
  const marks = readings.map((reading, n): Marks => {
    const was = at.marks[n];
    return {
      drive: was === undefined || touched('drive') ? shownIn(sight, axle, 'drive', reading) : was.drive,
      coast: was === undefined || touched('coast') ? shownIn(sight, axle, 'coast', reading) : was.coast,
    };
  });
  return allMisfits(sight, axle, readings, marks).map((misfit, k) => (misfit - (at.misfits[k] ?? 0)) / secant);
}

/** Beyond a spread and a half the straight-line picture of the marks no longer holds. */
const longestStep = 1.5;

function stepFrom(guess: Guess, { matrix, gradient }: System, damping: number): Guess {
  const damped = Float64Array.from(matrix);
  for (let i = 0; i < guessSize; i += 1) damped[i * guessSize + i] = (damped[i * guessSize + i] ?? 0) * (1 + damping);
  const lower = choleskyOf(damped, guessSize);
  const step = solveUpper(lower, solveLower(lower, gradient));
  const longest = step.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  const kept = Math.min(1, longestStep / longest);
  return guess.map((value, i) => value - kept * (step[i] ?? 0));
}
