import { dot, type Square } from '../../basics/cholesky.ts';
import { type Case, type Tried, tryMoved } from './tried.ts';

/** The straight picture about a guess: precision, and the slope of half the cost there and near by. */
export interface System {
  /** JᵀJ + 1: the prior is one more reading of 0 ± 1 for every unknown. */
  readonly matrix: Square;
  /** Jᵀr + guess, with the slopes of where the picture was taken. */
  readonly gradientAt: (at: Tried) => Float64Array;
}

export function systemAt(about: Case, at: Tried): System {
  const size = at.guess.length;
  const slopes = Array.from({ length: size }, (_, index) => slopesAlong(about, at, index));
  const matrix = new Float64Array(size * size);
  slopes.forEach((slope, i) => {
    for (let j = 0; j <= i; j += 1) {
      const product = dot(slope, slopes[j] ?? slope) + (i === j ? 1 : 0);
      matrix[i * size + j] = product;
      matrix[j * size + i] = product;
    }
  });
  const gradientAt = ({ guess, misfits }: Tried): Float64Array =>
    guess.map((value, i) => value + dot(slopes[i] ?? misfits, misfits));
  return { matrix, gradientAt };
}

/** Step for derivatives, in standard units: wide enough to see past the grain of a thinned flank. */
const secant = 0.15;

/** How every misfit changes with one unknown. */
function slopesAlong(about: Case, at: Tried, index: number): Float64Array {
  const moved = tryMoved(about, at, index, secant);
  return moved.misfits.map((misfit, k) => (misfit - (at.misfits[k] ?? 0)) / secant);
}
