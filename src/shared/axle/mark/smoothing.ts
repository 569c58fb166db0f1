import { leastSquares } from '../../basics/leastSquares.ts';

/** Size of a raster; fields over it are stored row by row. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Mean of each cell with its eight neighbours, as far as there are any. */
export function smoothed(field: Float32Array, grid: Grid): Float32Array {
  return alongRows(alongColumns(field, grid), grid);
}

function alongRows(field: Float32Array, { columns, rows }: Grid): Float32Array {
  const out = new Float32Array(field.length);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      const left = field[column > 0 ? at - 1 : at] ?? 0;
      const right = field[column < columns - 1 ? at + 1 : at] ?? 0;
      out[at] = (left + (field[at] ?? 0) + right) / 3;
    }
  }
  return out;
}

function alongColumns(field: Float32Array, { columns, rows }: Grid): Float32Array {
  const out = new Float32Array(field.length);
  for (let at = 0; at < field.length; at += 1) {
    const below = field[at >= columns ? at - columns : at] ?? 0;
    const above = field[at < columns * (rows - 1) ? at + columns : at] ?? 0;
    out[at] = (below + (field[at] ?? 0) + above) / 3;
  }
  return out;
}

/** A quantity that changes slowly over the flank: how bright the light, how thick the film. */
export type Surface = (along: number, up: number) => number;

/**
 * Quadric through the chosen cells, the wildest left out of a second fit. Where the choice cannot carry a quadric a
 * plane is laid, and where it cannot carry a plane, a level.
 */
export function slowSurface(field: Float32Array, grid: Grid, chosen: (cell: number) => boolean): Surface {
  const cells = someOf(field.length, chosen);
  for (const terms of [quadric, plane]) {
    if (cells.length < 40) continue;
    const first = fitted(cells, field, grid, terms);
    if (first === undefined) continue;
    const kept = cells.filter((cell) => Math.abs((field[cell] ?? 0) - first.at(cell)) <= 1.8 * first.sd + 1e-6);
    return (fitted(kept, field, grid, terms) ?? first).surface;
  }
  const level = median(cells.map((cell) => field[cell] ?? 0));
  return () => level;
}

/** At most some hundred of the chosen cells, evenly picked: a slow surface needs no more. */
function someOf(count: number, chosen: (cell: number) => boolean): readonly number[] {
  const cells: number[] = [];
  for (let cell = 0; cell < count; cell += 1) if (chosen(cell)) cells.push(cell);
  const stride = Math.max(1, Math.floor(cells.length / 600));
  return cells.filter((_, n) => n % stride === 0);
}

type Terms = (x: number, y: number) => readonly number[];
const quadric: Terms = (x, y) => [1, x, y, x * x, x * y, y * y];
const plane: Terms = (x, y) => [1, x, y];

function fitted(cells: readonly number[], field: Float32Array, grid: Grid, terms: Terms) {
  const rows = cells.map((cell) => terms(...placeOf(cell, grid)));
  const fit = leastSquares(
    rows,
    cells.map((cell) => field[cell] ?? 0),
  );
  if (fit === undefined) return undefined;
  const surface: Surface = (along, up) =>
    terms(along - 0.5, up - 0.5).reduce((sum, term, n) => sum + term * (fit.coefficients[n] ?? 0), 0);
  const at = (cell: number) => {
    const [x, y] = placeOf(cell, grid);
    return surface(x + 0.5, y + 0.5);
  };
  return { surface, at, sd: fit.sd };
}

/** A cell's middle, from the middle of the flank. */
function placeOf(cell: number, { columns, rows }: Grid): readonly [number, number] {
  const column = cell % columns;
  return [(column + 0.5) / columns - 0.5, ((cell - column) / columns + 0.5) / rows - 0.5];
}

export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** Value below which a share of the values lies; 0 of no values. */
export function quantile(values: readonly number[] | Float32Array, share: number): number {
  const sorted = Float64Array.from(values).toSorted();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}
