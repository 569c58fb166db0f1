import { closingAlong, type Closing } from './contactLines.ts';
import { columns, type FlankGrid, rows } from './flankGrid.ts';

/** What the compound shows on a flank after rolling: how much of each grid point's cell is marked, 0…1, and how tight it was. */
export interface Paint {
  readonly covered: Float64Array;
  /** Gap left at the point when its contact line carried (mm). */
  readonly clearance: Float64Array;
}

/**
 * The unloaded rolled mark: on each contact line the part whose gap above the line's own smallest is within the film,
 * over the roll in which this tooth carries (its neighbours take over where they close first). The flank's edges cut
 * it because the grid ends there.
 * @param gaps gap at each grid point (mm), relief and movements together.
 * @param film thickness of the compound (mm).
 */
export function paintFrom(grid: FlankGrid, gaps: Float64Array, film: number): Paint {
  const closing = closingAlong(grid.lines, gaps);
  const clearance = new Float64Array(gaps.length);
  const filmLeft = new Float64Array(gaps.length);
  const carrying = new Float64Array(gaps.length);
  for (let index = 0; index < gaps.length; index += 1) {
    const place = ((grid.roll[index] ?? 0) - grid.lines.first) / grid.lines.step;
    const left = (gaps[index] ?? 0) - between(closing.smallest, place);
    clearance[index] = left;
    filmLeft[index] = film - left;
    carrying[index] = between(closing.lead, place);
  }
  return { covered: coverage(filmLeft, carrying), clearance };
}

/** A line's value at a roll between two lines; at the corners of the flank, where one of them is missing, the other's. */
function between(values: Closing['smallest'], place: number): number {
  const line = Math.floor(place);
  const low = values[line] ?? Number.POSITIVE_INFINITY;
  const high = values[line + 1] ?? Number.POSITIVE_INFINITY;
  if (!Number.isFinite(low)) return high;
  return Number.isFinite(high) ? low + (high - low) * (place - line) : low;
}

/** A cell is marked as far as both margins say, each blurred over one cell so that marks move smoothly with the shims. */
function coverage(filmLeft: Float64Array, carrying: Float64Array): Float64Array {
  return filmLeft.map((_, index) => Math.min(shareAbove(filmLeft, index), shareAbove(carrying, index)));
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

/** Change of `margin` to the neighbour, the smaller of the two sides: a jump on one side must not blur the other. */
function step(margin: Float64Array, index: number, stride: number, hasBefore: boolean, hasAfter: boolean): number {
  const here = margin[index] ?? 0;
  const before = hasBefore ? Math.abs(here - (margin[index - stride] ?? 0)) : Number.POSITIVE_INFINITY;
  const after = hasAfter ? Math.abs((margin[index + stride] ?? 0) - here) : Number.POSITIVE_INFINITY;
  return Math.min(before, after);
}
