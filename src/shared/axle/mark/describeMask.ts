import type { Field } from '../../basics/field.ts';
import type { Edge, EdgeContact, Mark } from './mark.ts';
import type { Mask } from './regions.ts';
import type { Grid } from './smoothing.ts';

/** A mask with what it was cut from. */
interface Marked {
  readonly grid: Grid;
  readonly mask: Mask;
  /** How bare each cell is, 0 compound … 1 mark. */
  readonly bareness: Field;
}

/** The tooth's proportions, as far as they are known. */
export interface Proportions {
  /** Face width over height of the flank in the middle. */
  readonly faceOverHeight: number;
  /** Height of the flank at the toe over that at the heel. */
  readonly narrowing: number;
}

/** A mark as docs/command-line.md has it, with the area it covers as a fraction of the flank's. */
export interface MarkWithArea extends Mark {
  readonly area: number;
}

/** Describes a mask that is not empty. */
export function describeMask(marked: Marked, proportions: Proportions): MarkWithArea {
  const { grid, mask } = marked;
  const moments = momentsOf(mask, grid, proportions.narrowing);
  const columns = occupied(mask, grid, 'columns');
  const rows = occupied(mask, grid, 'rows');
  return {
    heel: moments.heel,
    crown: moments.crown,
    length: span(columns, grid.columns),
    height: span(rows, grid.rows),
    slant_deg: slant(moments, proportions.faceOverHeight),
    edges: {
      toe: contact(marked, 'toe'),
      heel: contact(marked, 'heel'),
      crown: contact(marked, 'crown'),
      root: contact(marked, 'root'),
    },
    area: moments.area,
  };
}

interface Moments {
  readonly heel: number;
  readonly crown: number;
  readonly heelHeel: number;
  readonly heelCrown: number;
  readonly crownCrown: number;
  readonly area: number;
}

/** Area centroid and second moments about it; where the tooth is higher a cell holds more area. */
export function momentsOf(mask: Mask, { columns, rows }: Grid, narrowing: number): Moments {
  let [area, whole, h, c, hh, hc, cc] = [0, 0, 0, 0, 0, 0, 0];
  for (let column = 0; column < columns; column += 1) {
    const along = (column + 0.5) / columns;
    const heel = along - 0.5;
    const weight = narrowing + (1 - narrowing) * along;
    whole += weight * rows;
    for (let row = 0; row < rows; row += 1) {
      if (mask[row * columns + column] !== 1) continue;
      const crown = (row + 0.5) / rows - 0.5;
      area += weight;
      h += weight * heel;
      c += weight * crown;
      hh += weight * heel * heel;
      hc += weight * heel * crown;
      cc += weight * crown * crown;
    }
  }
  const [heel, crown] = [h / area, c / area];
  return {
    heel,
    crown,
    heelHeel: hh / area - heel * heel,
    heelCrown: hc / area - heel * crown,
    crownCrown: cc / area - crown * crown,
    area: area / whole,
  };
}

/** Long axis against the face on the tooth as it is, not as the square raster shows it. */
function slant({ heelHeel, heelCrown, crownCrown }: Moments, faceOverHeight: number): number {
  const along = heelHeel * faceOverHeight ** 2;
  return (Math.atan2(2 * heelCrown * faceOverHeight, along - crownCrown) * 90) / Math.PI;
}

/** How many cells of the mask each column or row holds. */
function occupied(mask: Mask, { columns, rows }: Grid, by: 'columns' | 'rows'): Uint32Array {
  const counts = new Uint32Array(by === 'columns' ? columns : rows);
  mask.forEach((cell, at) => {
    const column = at % columns;
    const place = by === 'columns' ? column : (at - column) / columns;
    if (cell === 1) counts[place] = (counts[place] ?? 0) + 1;
  });
  return counts;
}

/** From first to last line that holds more than a hair of the mark, as a fraction. */
function span(counts: Uint32Array, whole: number): number {
  const first = counts.findIndex((count) => count >= 2);
  const last = counts.findLastIndex((count) => count >= 2);
  return first < 0 ? 0 : (last - first + 1) / whole;
}

/** Rows (or columns) beside an edge over which the width of the mark is followed on to the edge itself, first and last. */
const followed = [1, 7] as const;
/** Columns (or rows) over which a mark must touch an edge, about half a millimetre, or it does not. */
const shortest = 3;
/** Bareness above which it is the mark, and above which the eye sees a line and not a fading: little film is left. */
const [touching, line] = [0.5, 0.7];

/**
 * How the mark meets an edge. The last cells are not to be trusted, because edges are found only so well and a picture
 * is blurred: the width of the mark is followed from further in, so that a corner of it that ends just before the edge
 * is told from one cut off by it.
 */
function contact({ grid, mask, bareness }: Marked, edge: Edge): EdgeContact {
  const across = edge === 'toe' || edge === 'heel';
  const [deep, long] = across ? [grid.columns, grid.rows] : [grid.rows, grid.columns];
  const first = edge === 'toe' || edge === 'root';
  const cell = (depth: number, along: number) => {
    const inward = first ? depth : deep - 1 - depth;
    return across ? along * grid.columns + inward : inward * grid.columns + along;
  };
  const widthAt = (depth: number, level: number): number => {
    let width = 0;
    for (let along = 0; along < long; along += 1) {
      const at = cell(depth, along);
      if (mask[at] === 1 && bareness.cell(at) > level) width += 1;
    }
    return width;
  };
  const touches = (level: number): boolean => atFirstRow((depth) => widthAt(depth, level)) >= shortest;
  if (!touches(touching)) return 'clear';
  return touches(line) ? 'hard' : 'feathered';
}

/** A straight line through the widths of the followed rows, read at the row on the edge; 0 where the mark ends before. */
function atFirstRow(width: (depth: number) => number): number {
  const [nearest, farthest] = followed;
  if (width(nearest) === 0) return 0;
  const middle = (nearest + farthest) / 2;
  let [sum, slope, spread] = [0, 0, 0];
  for (let depth = nearest; depth <= farthest; depth += 1) {
    const seen = width(depth);
    sum += seen;
    slope += (depth - middle) * seen;
    spread += (depth - middle) ** 2;
  }
  return sum / (farthest - nearest + 1) - (slope / spread) * middle;
}
