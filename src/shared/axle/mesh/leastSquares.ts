/**
 * Coefficients that bring `rows · x` nearest to `values`, by the normal equations. Good for the few, well-scaled
 * unknowns of a quadric patch; not a general solver.
 */
export function leastSquares(rows: readonly (readonly number[])[], values: readonly number[]): number[] {
  const size = rows[0]?.length ?? 0;
  const system = Array.from({ length: size }, (_, i) => [
    ...Array.from({ length: size }, (_, j) => sum(rows, (row) => at(row, i) * at(row, j))),
    sum(rows, (row, index) => at(row, i) * at(values, index)),
  ]);
  return solve(system);
}

const at = (list: readonly number[], index: number): number => list[index] ?? 0;

const sum = (rows: readonly (readonly number[])[], of: (row: readonly number[], index: number) => number): number =>
  rows.reduce((total, row, index) => total + of(row, index), 0);

/** Gauss–Jordan with row pivoting on an augmented matrix. */
function solve(system: number[][]): number[] {
  for (let column = 0; column < system.length; column += 1) {
    const pivot = system
      .slice(column)
      .reduce((best, row) => (Math.abs(at(row, column)) > Math.abs(at(best, column)) ? row : best));
    const others = system.filter((row) => row !== pivot);
    const scaled = pivot.map((value) => value / at(pivot, column));
    const cleared = others.map((row) => row.map((value, index) => value - at(row, column) * at(scaled, index)));
    system.splice(0, system.length, ...cleared.slice(0, column), scaled, ...cleared.slice(column));
  }
  return system.map((row) => at(row, system.length));
}
