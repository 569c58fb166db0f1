import { choleskyOf, dot, solveLower, solveUpper, type Square, squares } from '../../basics/cholesky.ts';
import { type Guess, guessSize } from './guess.ts';
import { type Case, type Tried, tryGuess, tryMoved } from './tried.ts';

/** What the readings have taught: the likeliest axle, how unsure it is, and how well it explains what was read. */
export interface Belief {
  readonly about: Case;
  readonly likeliest: Tried;
  /** Cholesky factor of the precision, in standard units. */
  readonly precision: Square;
  /** Sum of squared misfits at the likeliest axle. */
  readonly misfit: number;
  /** Logarithm of how probable the readings are under this prior, but for a constant. */
  readonly evidence: number;
}

const rounds = 12;
const enough = 0.05;

/**
 * Finds the axle that explains the readings best and how sharply they determine it: damped Gauss–Newton from what a
 * set is usually like, then the normal approximation about the end (Laplace).
 */
export function learn(about: Case): Belief {
  let best = tryGuess(about, new Float64Array(guessSize(about.readings.length)));
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
  return beliefFrom(about, best, system);
}

function beliefFrom(about: Case, likeliest: Tried, { matrix }: System): Belief {
  const size = likeliest.guess.length;
  const precision = choleskyOf(matrix, size);
  let volume = 0;
  for (let i = 0; i < size; i += 1) volume += Math.log(precision[i * size + i] ?? 1);
  const misfit = squares(likeliest.misfits);
  return { about, likeliest, precision, misfit, evidence: -likeliest.cost / 2 - volume };
}

/** Precision and slope of the cost at a guess. */
interface System {
  readonly matrix: Square;
  readonly gradient: Float64Array;
}

/** JᵀJ + 1 and Jᵀr + guess: the prior is one more reading of 0 ± 1 for every unknown. */
function normalEquations(about: Case, at: Tried): System {
  const size = at.guess.length;
  const slopes = Array.from({ length: size }, (_, index) => slopesAlong(about, at, index));
  const matrix = new Float64Array(size * size);
  const gradient = Float64Array.from(at.guess);
  slopes.forEach((slope, i) => {
    gradient[i] = (gradient[i] ?? 0) + dot(slope, at.misfits);
    for (let j = 0; j <= i; j += 1) {
      const product = dot(slope, slopes[j] ?? slope) + (i === j ? 1 : 0);
      matrix[i * size + j] = product;
      matrix[j * size + i] = product;
    }
  });
  return { matrix, gradient };
}

/** Step for derivatives, in standard units: wide enough to see past the grain of a thinned flank. */
const secant = 0.15;

/** How every misfit changes with one unknown. */
function slopesAlong(about: Case, at: Tried, index: number): Float64Array {
  const moved = tryMoved(about, at, index, secant);
  return moved.misfits.map((misfit, k) => (misfit - (at.misfits[k] ?? 0)) / secant);
}

/** Beyond a spread and a half the straight-line picture of the marks no longer holds. */
const longestStep = 1.5;

function stepFrom(guess: Guess, { matrix, gradient }: System, damping: number): Guess {
  const size = guess.length;
  const damped = Float64Array.from(matrix);
  for (let i = 0; i < size; i += 1) damped[i * size + i] = (damped[i * size + i] ?? 0) * (1 + damping);
  const lower = choleskyOf(damped, size);
  const step = solveUpper(lower, solveLower(lower, gradient));
  const longest = step.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  const kept = Math.min(1, longestStep / longest);
  return guess.map((value, i) => value - kept * (step[i] ?? 0));
}
