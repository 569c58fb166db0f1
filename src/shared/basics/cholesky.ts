import { at } from './at.ts';

/** A square matrix, row after row. */
export type Square = Float64Array;

/**
 * Cholesky factor: lower triangle L with L·Lᵀ = `matrix`.
 * @param matrix symmetric and positive definite; ours always is, because every unknown adds 1 to its diagonal.
 */
export function choleskyOf(matrix: Square, size: number): Square {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let rest = at(matrix, i * size + j);
      // The innermost loop of every fit: places within both rows, so that nothing needs to be asked for.
      for (let k = 0; k < j; k += 1) rest -= (lower[i * size + k] ?? 0) * (lower[j * size + k] ?? 0);
      lower[i * size + j] = i === j ? Math.sqrt(Math.max(rest, 1e-12)) : rest / at(lower, j * size + j);
    }
  }
  return lower;
}

/** x with L·x = `right`. */
export function solveLower(lower: Square, right: Float64Array): Float64Array {
  const size = right.length;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i += 1) {
    let rest = at(x, i);
    for (let k = 0; k < i; k += 1) rest -= at(lower, i * size + k) * at(x, k);
    x[i] = rest / at(lower, i * size + i);
  }
  return x;
}

/** x with Lᵀ·x = `right`. */
export function solveUpper(lower: Square, right: Float64Array): Float64Array {
  const size = right.length;
  const x = Float64Array.from(right);
  for (let i = size - 1; i >= 0; i -= 1) {
    let rest = at(x, i);
    for (let k = i + 1; k < size; k += 1) rest -= at(lower, k * size + i) * at(x, k);
    x[i] = rest / at(lower, i * size + i);
  }
  return x;
}

/** Inverse of a symmetric, positive definite matrix. */
export function inverseOf(matrix: Square, size: number): Square {
  const lower = choleskyOf(matrix, size);
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column += 1) {
    const unit = new Float64Array(size);
    unit[column] = 1;
    solveUpper(lower, solveLower(lower, unit)).forEach((value, row) => (inverse[row * size + column] = value));
  }
  return inverse;
}

/** Logarithm of the determinant of a symmetric, positive definite matrix. */
export function logDeterminant(matrix: Square, size: number): number {
  const lower = choleskyOf(matrix, size);
  let sum = 0;
  for (let i = 0; i < size; i += 1) sum += 2 * Math.log(at(lower, i * size + i));
  return sum;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k += 1) sum += at(a, k) * at(b, k);
  return sum;
}

export const squares = (values: Float64Array): number => dot(values, values);
