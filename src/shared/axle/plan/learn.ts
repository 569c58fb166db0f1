import { choleskyOf, solveLower, solveUpper, type Square, squares } from '../../basics/cholesky.ts';
import { type Guess, guessSize } from './guess.ts';
import { type System, systemAt } from './normalEquations.ts';
import { type Case, type Tried, tryGuess } from './tried.ts';

/** What the readings have taught: the likeliest axle, how unsure it is, and how well it explains what was read. */
export interface Belief {
  readonly about: Case;
  readonly likeliest: Tried;
  /** The straight picture there, and the Cholesky factor of its precision, in standard units. */
  readonly system: System;
  readonly precision: Square;
  /** Sum of squared misfits at the likeliest axle. */
  readonly misfit: number;
}

const rounds = 12;
const enough = 0.05;

/**
 * Finds the axle that explains the readings best and how sharply they determine it: damped Gauss–Newton from what a
 * set is usually like, then the normal approximation about the end (Laplace).
 */
export function learn(about: Case): Belief {
  let best = tryGuess(about, new Float64Array(guessSize(about.readings.length)));
  let system = systemAt(about, best);
  let damping = 0.1;
  for (let round = 0; round < rounds; round += 1) {
    const tried = tryGuess(about, stepFrom(best, system, damping));
    const gained = best.cost - tried.cost;
    if (gained <= 0) {
      damping *= 6;
      continue;
    }
    [best, system, damping] = [tried, systemAt(about, tried), damping / 4];
    if (gained < enough) break;
  }
  return beliefFrom(about, best, system);
}

function beliefFrom(about: Case, likeliest: Tried, system: System): Belief {
  const size = likeliest.guess.length;
  const precision = choleskyOf(system.matrix, size);
  const misfit = squares(likeliest.misfits);
  return { about, likeliest, system, precision, misfit };
}

/** Logarithm of how probable the readings are in the straight picture about the likeliest axle, but for a constant. */
export function straightEvidence({ likeliest, precision }: Belief): number {
  const size = likeliest.guess.length;
  let volume = 0;
  for (let k = 0; k < size; k += 1) volume += Math.log(precision[k * size + k] ?? 1);
  return -likeliest.cost / 2 - volume;
}

/** Beyond a spread and a half the straight-line picture of the marks no longer holds. */
const longestStep = 1.5;

function stepFrom(best: Tried, { matrix, gradientAt }: System, damping: number): Guess {
  const { guess } = best;
  const size = guess.length;
  const damped = Float64Array.from(matrix);
  for (let i = 0; i < size; i += 1) damped[i * size + i] = (damped[i * size + i] ?? 0) * (1 + damping);
  const lower = choleskyOf(damped, size);
  const step = solveUpper(lower, solveLower(lower, gradientAt(best)));
  const longest = step.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  const kept = Math.min(1, longestStep / longest);
  return guess.map((value, i) => value - kept * (step[i] ?? 0));
}
