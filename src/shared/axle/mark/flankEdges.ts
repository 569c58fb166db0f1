import { type LabPlanes, labPlanes } from './labPlanes.ts';
import { besideEdge, type FlankMap } from './flankMap.ts';
import type { Photo } from './photo.ts';
import { straighten, type Stretch } from './straighten.ts';

/** The flank with a good part of what lies above and below it, in which its two long edges are looked for. */
const beside: Stretch = { columns: 96, rows: 168, low: -0.9, high: 1.9, samples: 2 };

/** What the photo itself shows of the flank's two long edges. */
export interface LongEdges {
  /** Bend of each in the middle, as fractions of the height; undefined where no edge shows. */
  readonly crown: number | undefined;
  readonly root: number | undefined;
  /** How wide the sharpest edges are, as a fraction of the flank's height; undefined where nothing stands out at all. */
  readonly softness: number | undefined;
  /** Whether another line in the photo would do nearly as well. */
  readonly doubtful: boolean;
}

const most = 0.7;
const step = 0.01;
const candidates = Array.from({ length: Math.round((2 * most) / step) + 1 }, (_, n) => n * step - most);

/**
 * Looks for crown and root as arcs through the tapped corners: the arc across which colours differ along the whole
 * length is the edge. A single step in colour counts only so much, so that the outline of the mark, which is strong
 * but short, does not pass for it.
 */
export function findLongEdges(photo: Photo, map: FlankMap): LongEdges {
  const colours = labPlanes(straighten(photo, besideEdge(map, 'crown'), beside));
  const belowRoot = labPlanes(straighten(photo, besideEdge(map, 'root'), beside));
  const crown = candidates.map((bend) => difference(colours, 1, bend));
  const root = candidates.map((bend) => difference(belowRoot, 0, bend));
  const together = crown.map((value, n) => value + 0.5 * (root[n] ?? 0));
  if (!standsOut(together)) return { crown: undefined, root: undefined, softness: softness(colours), doubtful: false };
  const both = peak(together);
  const crownBend = standsOut(crown) ? nearPeak(crown, both) : both;
  const rootBend = standsOut(root) ? nearPeak(root, crownBend) : crownBend;
  return { crown: crownBend, root: rootBend, softness: softness(colours), doubtful: hasRival(together, both) };
}

const rowOf = (up: number): number =>
  Math.min(
    beside.rows - 1,
    Math.max(0, Math.round(((up - beside.low) / (beside.high - beside.low)) * beside.rows - 0.5)),
  );

/** Colour difference ΔE*ab beyond which a step is simply an edge. */
const enough = 18;
/** How far on each side of an arc colours are compared, as a fraction of the height. */
const aside = 0.045;

/** Mean colour step across an arc from corner to corner, each step counted up to `enough`. */
function difference(colours: LabPlanes, edge: 0 | 1, bend: number): number {
  const [first, last] = [Math.round(0.06 * beside.columns), Math.round(0.94 * beside.columns)];
  let sum = 0;
  for (let column = first; column < last; column += 1) {
    const up = edge + bend * arch(column);
    sum += Math.min(
      enough,
      apart(colours, rowOf(up + aside) * beside.columns + column, rowOf(up - aside) * beside.columns + column),
    );
  }
  return sum / (last - first);
}

function arch(column: number): number {
  const along = (column + 0.5) / beside.columns;
  return 4 * along * (1 - along);
}

const apart = ({ L, a, b }: LabPlanes, p: number, q: number): number =>
  Math.hypot((L[p] ?? 0) - (L[q] ?? 0), (a[p] ?? 0) - (a[q] ?? 0), (b[p] ?? 0) - (b[q] ?? 0));

/** Whether the best arc is clearly better than most. */
function standsOut(values: readonly number[]): boolean {
  const sorted = values.toSorted((p, q) => p - q);
  const [middle, best] = [sorted[Math.floor(sorted.length / 2)] ?? 0, sorted.at(-1) ?? 0];
  return best > 6 && best > 1.35 * middle;
}

const peak = (values: readonly number[]): number => refined(values, values.indexOf(Math.max(...values)));

/** Whether a bend far from the best fits nearly as well. */
function hasRival(values: readonly number[], bend: number): boolean {
  const best = Math.max(...values);
  return values.some((value, n) => Math.abs((candidates[n] ?? 0) - bend) > 0.2 && value > 0.8 * best);
}

/** The best near what both edges say together: one arc belongs to both, and lines farther off are something else's. */
function nearPeak(values: readonly number[], bend: number): number {
  const near = values.map((value, n) => value * Math.exp(-(((candidates[n] ?? 0) - bend) ** 2) / (2 * alike ** 2)));
  return refined(near, near.indexOf(Math.max(...near)));
}
/** How much the two arcs of one flank differ, as fractions of its height (from rendered photographs). */
const alike = 0.03;

/** Centre of the top: the contrast is flat over twice the distance at which colours are compared. */
function refined(values: readonly number[], top: number): number {
  const foot = 0.85 * (values[top] ?? 0);
  let [sum, weight] = [0, 0];
  const add = (n: number): boolean => {
    const above = (values[n] ?? 0) - foot;
    if (above <= 0) return false;
    sum += above * (candidates[n] ?? 0);
    weight += above;
    return true;
  };
  for (let n = top; add(n); n += 1);
  for (let n = top - 1; add(n); n -= 1);
  return weight > 0 ? sum / weight : (candidates[top] ?? 0);
}

/**
 * Median over the length of how wide the sharpest step across the flank and its surroundings is: in a sharp photo some
 * edge of the tooth is, in a blurred one none.
 */
function softness(colours: LabPlanes): number | undefined {
  const widths: number[] = [];
  for (let column = 2; column < beside.columns - 2; column += 1) {
    const width = sharpestStep(colours, column);
    if (width !== undefined) widths.push(width);
  }
  if (widths.length < beside.columns / 4) return undefined;
  return widths.toSorted((p, q) => p - q)[Math.floor(widths.length / 2)];
}

/** Largest colour difference in a column over the steepest change in it, as a fraction of the flank's height. */
function sharpestStep(colours: LabPlanes, column: number): number | undefined {
  const cell = (row: number) => row * beside.columns + column;
  const middle = cell(Math.floor(beside.rows / 2));
  const perRow = (beside.high - beside.low) / beside.rows;
  let [whole, steepest] = [0, 0];
  for (let row = 1; row < beside.rows - 1; row += 1) {
    whole = Math.max(whole, apart(colours, cell(row), middle));
    steepest = Math.max(steepest, apart(colours, cell(row - 1), cell(row + 1)) / (2 * perRow));
  }
  return whole < enough ? undefined : whole / steepest;
}
