import { between, type Closing } from './contactLines.ts';
import { columns, type FlankGrid, rows } from './flankGrid.ts';

/** What the compound shows on a flank after rolling: how much of each grid point's cell is marked, 0…1, and how tight it was. */
export interface Paint {
  readonly covered: Float64Array;
  /** Gap the point came down to while this tooth carried (mm). */
  readonly clearance: Float64Array;
}

/**
 * The unloaded rolled mark: on each contact line the part whose gap above the line's own smallest is within the film,
 * over the roll in which this tooth carries. A place that would meet beyond it comes as close as the end of that stretch
 * brings it; there the neighbour takes over and this tooth moves away. The flank's edges cut the mark because the grid
 * ends there.
 * @param gaps gap at each grid point (mm), relief and movements together; `closing` is what they come to.
 * @param film thickness of the compound (mm).
 */
export function paintFrom(grid: FlankGrid, gaps: Float64Array, closing: Closing, film: number): Paint {
  const { first, step } = grid.lines;
  const clearance = new Float64Array(gaps.length);
  const filmLeft = new Float64Array(gaps.length);
  for (let index = 0; index < gaps.length; index += 1) {
    const own = ((grid.roll[index] ?? 0) - first) / step;
    const nearest = Math.min(closing.to, Math.max(closing.from, own));
    const missed = (own - nearest) * step;
    const left =
      (gaps[index] ?? 0) - between(closing.smallest, nearest) + ((grid.bend[index] ?? 0) * missed * missed) / 2;
    clearance[index] = left;
    filmLeft[index] = film - left;
  }
  // Each cell is blurred over itself, so that marks move smoothly with the shims.
  return { covered: filmLeft.map((_, index) => shareAbove(filmLeft, index)), clearance };
}

/** How much of a cell lies where `margin` is positive, if it is nearly plane there. */
function shareAbove(margin: Float64Array, index: number): number {
  const here = margin[index] ?? 0;
  const row = index % rows;
  const column = (index - row) / rows;
  const across =
    step(margin, index, rows, column > 0, column < columns - 1) + step(margin, index, 1, row > 0, row < rows - 1);
  if (across === 0) return here > 0 ? 1 : 0;
  return Math.min(1, Math.max(0, 0.5 + here / across));
}

/** Change of `margin` to the neighbour, the smaller of the two sides: a bend on one side must not blur the other. */
function step(margin: Float64Array, index: number, stride: number, hasBefore: boolean, hasAfter: boolean): number {
  const here = margin[index] ?? 0;
  const before = hasBefore ? Math.abs(here - (margin[index - stride] ?? 0)) : Number.POSITIVE_INFINITY;
  const after = hasAfter ? Math.abs((margin[index + stride] ?? 0) - here) : Number.POSITIVE_INFINITY;
  return Math.min(before, after);
}
