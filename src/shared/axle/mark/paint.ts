import { at } from '../../basics/at.ts';
import { choleskyOf, solveLower, solveUpper } from '../../basics/cholesky.ts';
import { Field } from '../../basics/field.ts';
import type { Grid } from './smoothing.ts';

/** Three numbers that belong together: L*, a* and b* of a colour, or of a difference between two. */
export type Three = readonly [L: number, a: number, b: number];

/** How a surface looks, or would look, at every cell of a flank: L*, a*, b*. */
export type Colours = readonly [L: Field, a: Field, b: Field];

export const colourAt = ([L, a, b]: Colours, cell: number): Three => [L.cell(cell), a.cell(cell), b.cell(cell)];

/** Mean of steps in colour, each taken along the direction of their sum and counted up to `most`, ΔE*ab. */
export function agreement(steps: readonly Three[], most: number): number {
  const way = wayOf(steps);
  let sum = 0;
  for (const step of steps) sum += Math.max(-most, Math.min(most, reach(step, way)));
  return sum / steps.length;
}

/** Direction of the sum of steps in colour; of no length where they have none. */
function wayOf(steps: readonly Three[]): Three {
  let [L, a, b] = [0, 0, 0];
  for (const step of steps) {
    L += step[0];
    a += step[1];
    b += step[2];
  }
  const size = Math.hypot(L, a, b) || 1;
  return [L / size, a / size, b / size];
}

/** How far a step goes in a direction. */
const reach = (step: Three, way: Three): number => step[0] * way[0] + step[1] * way[1] + step[2] * way[2];

/** Which cells a surface is laid through: 1 counts, 0 does not. */
export type Chosen = Uint8Array;

/** Every third cell is fitted: a surface that changes slowly needs no more. */
const stride = 3;

/**
 * Lays a quadric over the flank in each of L*, a* and b*, through the chosen cells: a light that changes slowly, a film
 * that was brushed on. A second round leaves out the cells that the first fits worst: glare, and what was chosen wrongly.
 * @param stiff how strongly slopes and bends are held at nothing, as if by so many cells: where few were chosen in one
 *   corner, nothing wild comes out at the other
 */
export function laidThrough(colours: Colours, chosen: Chosen, stiff: number): Colours {
  const first = fitted(colours, chosen, stiff);
  let [sum, count] = [0, 0];
  const off = new Float32Array(chosen.length);
  for (let cell = 0; cell < chosen.length; cell += stride) {
    if (chosen[cell] !== 1) continue;
    const here = distance(colours, first, cell);
    off[cell] = here;
    sum += here;
    count += 1;
  }
  const most = (2 * sum) / Math.max(1, count) + 0.5;
  return fitted(
    colours,
    chosen.map((one, cell) => ((off[cell] ?? 0) > most ? 0 : one)),
    stiff,
  );
}

/** Difference ΔE*ab between two colours of one cell. */
const distance = ([L, a, b]: Colours, [L2, a2, b2]: Colours, cell: number): number =>
  Math.hypot(L.cell(cell) - L2.cell(cell), a.cell(cell) - a2.cell(cell), b.cell(cell) - b2.cell(cell));

/** Level, two slopes, two bends and the twist. */
const terms = 6;

/** Their values at the middle of a cell, written into `out`. */
function termsAt(cell: number, { columns, rows }: Grid, out: Float64Array): void {
  const column = cell % columns;
  const x = (column + 0.5) / columns - 0.5;
  const y = ((cell - column) / columns + 0.5) / rows - 0.5;
  out[0] = 1;
  out[1] = x;
  out[2] = y;
  out[3] = x * x;
  out[4] = x * y;
  out[5] = y * y;
}

/** Least squares with a ridge, by its normal equations: places are centred, so these are well behaved. */
function fitted(colours: Colours, chosen: Chosen, stiff: number): Colours {
  const [grid] = colours;
  const matrix = new Float64Array(terms * terms);
  const sides = colours.map(() => new Float64Array(terms));
  const here = new Float64Array(terms);
  for (let cell = 0; cell < chosen.length; cell += stride) {
    if (chosen[cell] !== 1) continue;
    termsAt(cell, grid, here);
    for (let i = 0; i < terms; i += 1) {
      for (let j = 0; j <= i; j += 1) add(matrix, i * terms + j, at(here, i) * at(here, j));
    }
    sides.forEach((side, n) => {
      const value = at(colours, n).cell(cell);
      for (let i = 0; i < terms; i += 1) add(side, i, at(here, i) * value);
    });
  }
  for (let i = 0; i < terms; i += 1) add(matrix, i * terms + i, i === 0 ? 1e-6 : stiff);
  const lower = choleskyOf(matrix, terms);
  const surface = (n: 0 | 1 | 2) => laid(grid, solveUpper(lower, solveLower(lower, at(sides, n))));
  return [surface(0), surface(1), surface(2)];
}

function add(to: Float64Array, place: number, more: number): void {
  to[place] = at(to, place) + more;
}

function laid({ columns, rows }: Grid, coefficients: Float64Array): Field {
  const [level = 0, along = 0, up = 0, alongBend = 0, twist = 0, upBend = 0] = coefficients;
  const values = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row += 1) {
    const y = (row + 0.5) / rows - 0.5;
    const [ownLevel, ownSlope] = [level + y * (up + y * upBend), along + y * twist];
    for (let column = 0; column < columns; column += 1) {
      const x = (column + 0.5) / columns - 0.5;
      values[row * columns + column] = ownLevel + x * (ownSlope + x * alongBend);
    }
  }
  return new Field(columns, rows, values);
}
