/** Square matrices, row after row, for the two dozen unknowns of a plan. */
export type Square = Float64Array;

/**
 * Cholesky factor: lower triangle L with L·Lᵀ = `matrix`.
 * @param matrix symmetric and positive definite; ours always is, because every unknown adds 1 to its diagonal.
 */
export function choleskyOf(matrix: Square, size: number): Square {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let rest = matrix[i * size + j] ?? 0;
      for (let k = 0; k < j; k += 1) rest -= (lower[i * size + k] ?? 0) * (lower[j * size + k] ?? 0);
      lower[i * size + j] = i === j ? Math.sqrt(Math.max(rest, 1e-12)) : rest / (lower[j * size + j] ?? 1);
    }
  }
  return lower;
}

/** x with L·x = `right`. */
export function solveLower(lower: Square, right: Float64Array): Float64Array {
  const size = right.length;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i += 1) {
    let rest = x[i] ?? 0;
    for (let k = 0; k < i; k += 1) rest -= (lower[i * size + k] ?? 0) * (x[k] ?? 0);
    x[i] = rest / (lower[i * size + i] ?? 1);
  }
  return x;
}

/** x with Lᵀ·x = `right`. */
export function solveUpper(lower: Square, right: Float64Array): Float64Array {
  const size = right.length;
  const x = Float64Array.from(right);
  for (let i = size - 1; i >= 0; i -= 1) {
    let rest = x[i] ?? 0;
    for (let k = i + 1; k < size; k += 1) rest -= (lower[k * size + i] ?? 0) * (x[k] ?? 0);
    x[i] = rest / (lower[i * size + i] ?? 1);
  }
  return x;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k += 1) sum += (a[k] ?? 0) * (b[k] ?? 0);
  return sum;
}

export const squares = (values: Float64Array): number => dot(values, values);
