import type { Grid } from './smoothing.ts';

/** Cells of the mark: 1 where it is. */
export type Mask = Uint8Array;

/** A connected part of a mask. */
export interface Region {
  readonly cells: readonly number[];
  readonly touchesEdge: boolean;
}

/** Connected parts of the cells that hold `value`, largest first; cells are joined by their sides. */
export function regions(mask: Mask, grid: Grid, value: 0 | 1): readonly Region[] {
  const seen = new Uint8Array(mask.length);
  const found: Region[] = [];
  for (let cell = 0; cell < mask.length; cell += 1) {
    if (mask[cell] === value && seen[cell] === 0) found.push(flood(mask, grid, cell, seen));
  }
  return found.toSorted((p, q) => q.cells.length - p.cells.length);
}

function flood(mask: Mask, { columns, rows }: Grid, start: number, seen: Uint8Array): Region {
  const cells = [start];
  seen[start] = 1;
  let touchesEdge = false;
  const visit = (from: number, to: number): void => {
    if (seen[to] === 1 || mask[to] !== mask[from]) return;
    seen[to] = 1;
    cells.push(to);
  };
  for (let next = 0; next < cells.length; next += 1) {
    const cell = cells[next] ?? 0;
    const column = cell % columns;
    const row = (cell - column) / columns;
    if (column === 0 || row === 0 || column === columns - 1 || row === rows - 1) touchesEdge = true;
    if (column > 0) visit(cell, cell - 1);
    if (column < columns - 1) visit(cell, cell + 1);
    if (row > 0) visit(cell, cell - columns);
    if (row < rows - 1) visit(cell, cell + columns);
  }
  return { cells, touchesEdge };
}

/** A part smaller than this share of the largest is a spot where the brush missed. */
const spot = 0.12;
/** A hole larger than this share of the mark is compound, not a lump left in it. */
const lump = 0.15;

/** The mark without stray spots and without small holes. */
export function cleaned(mask: Mask, grid: Grid): Mask {
  const parts = regions(mask, grid, 1);
  const largest = parts[0]?.cells.length ?? 0;
  const out = new Uint8Array(mask.length);
  for (const { cells } of parts) {
    if (cells.length >= spot * largest) for (const cell of cells) out[cell] = 1;
  }
  for (const { cells, touchesEdge } of regions(out, grid, 0)) {
    if (!touchesEdge && cells.length < lump * largest) for (const cell of cells) out[cell] = 1;
  }
  return out;
}
