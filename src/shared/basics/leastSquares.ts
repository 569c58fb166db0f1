import { at } from './at.ts';

/**
 * Linear least squares by Householder reflections: small, and it keeps the digits that normal equations square away.
 */
interface Fit {
  readonly coefficients: readonly number[];
  /** Standard uncertainty of each coefficient, from the scatter of the fit; all 0 when nothing is left over to scatter. */
  readonly u: readonly number[];
  readonly residuals: readonly number[];
  readonly residualSquares: number;
  /** Values minus coefficients. */
  readonly nu: number;
  /** √(residual squares / nu); 0 when nu is 0. */
  readonly sd: number;
  /** Multiply by a variance to get the variance of each coefficient. */
  readonly unitVariance: readonly number[];
}

/**
 * Fits values ≈ Σ coefficient·column.
 * @param rows one row of the columns' values for each value.
 * @returns undefined when the columns cannot be told apart on these rows, or there are fewer rows than columns:
 *   two lobes at four equal places are the case that happens.
 */
export function leastSquares(rows: readonly (readonly number[])[], values: readonly number[]): Fit | undefined {
  const width = rows[0]?.length ?? 0;
  if (width === 0 || rows.length < width) return undefined;
  const work = rows.map((row, index) => [...row, at(values, index)]);
  const sizes = columnSizes(rows, width);
  for (let column = 0; column < width; column += 1) {
    if (!reflect(work, column, width, 1e-10 * at(sizes, column))) return undefined;
  }
  const coefficients = backSubstitute(work, width);
  return described(rows, values, coefficients, inverseRowSquares(work, width));
}

const columnSizes = (rows: readonly (readonly number[])[], width: number): readonly number[] =>
  Array.from({ length: width }, (_, column) => Math.hypot(...rows.map((row) => at(row, column))));

/** Turns `column` upright; false when what is left of it is no longer than `negligible`. */
function reflect(work: number[][], column: number, width: number, negligible: number): boolean {
  const below = work.slice(column);
  const length = Math.hypot(...below.map((row) => at(row, column)));
  if (!(length > negligible)) return false;
  const head = at(at(work, column), column);
  const pivot = head > 0 ? -length : length;
  const mirror = below.map((row, index) => at(row, column) - (index === 0 ? pivot : 0));
  const size = length * (length + Math.abs(head));
  for (let other = column; other <= width; other += 1) mirrorColumn(below, mirror, other, size);
  return true;
}

function mirrorColumn(below: number[][], mirror: readonly number[], other: number, size: number): void {
  let along = 0;
  for (const [index, row] of below.entries()) along += at(mirror, index) * at(row, other);
  for (const [index, row] of below.entries()) row[other] = at(row, other) - (at(mirror, index) * along) / size;
}

function backSubstitute(work: readonly (readonly number[])[], width: number): readonly number[] {
  const solved: number[] = Array.from({ length: width }, () => 0);
  for (let row = width - 1; row >= 0; row -= 1) {
    let rest = at(at(work, row), width);
    for (let column = row + 1; column < width; column += 1) rest -= at(at(work, row), column) * at(solved, column);
    solved[row] = rest / at(at(work, row), row);
  }
  return solved;
}

/** Diagonal of (RᵀR)⁻¹: squared lengths of the rows of R⁻¹. */
function inverseRowSquares(work: readonly (readonly number[])[], width: number): readonly number[] {
  const squares: number[] = Array.from({ length: width }, () => 0);
  for (let unit = 0; unit < width; unit += 1) {
    const target = work.slice(0, width).map((row, index) => [...row.slice(0, width), index === unit ? 1 : 0]);
    for (const [row, value] of backSubstitute(target, width).entries()) squares[row] = at(squares, row) + value ** 2;
  }
  return squares;
}

function described(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  coefficients: readonly number[],
  unitVariance: readonly number[],
): Fit {
  const residuals = rows.map((row, index) => at(values, index) - dot(row, coefficients));
  const residualSquares = residuals.reduce((sum, residual) => sum + residual ** 2, 0);
  const nu = rows.length - coefficients.length;
  const sd = nu === 0 ? 0 : Math.sqrt(residualSquares / nu);
  const u = unitVariance.map((unit) => sd * Math.sqrt(unit));
  return { coefficients, u, residuals, residualSquares, nu, sd, unitVariance };
}

const dot = (row: readonly number[], coefficients: readonly number[]): number =>
  row.reduce((sum, value, index) => sum + value * at(coefficients, index), 0);

/** Straight line through the points: values ≈ c₀ + c₁·x. */
export const fitLine = (xs: readonly number[], values: readonly number[]): Fit | undefined =>
  leastSquares(
    xs.map((x) => [1, x]),
    values,
  );
