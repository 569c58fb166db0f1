import { labPlanes } from './labPlanes.ts';
import { agreement, type Colours, colourAt, type Three } from './paint.ts';
import { archAt, besideEdge, type FlankMap } from './flankMap.ts';
import type { Photo } from './photo.ts';
import { straighten, type Stretch } from './straighten.ts';

/** The flank with a good part of what lies above and below it, in which its two long edges are looked for. */
const beside: Stretch = { columns: 96, rows: 180, low: -1, high: 2, samples: 2 };

/** What the photo itself shows of the flank's two long edges. */
export interface LongEdges {
  /** Bend of each in the middle, as fractions of the height; undefined where no edge shows. */
  readonly crown: number | undefined;
  readonly root: number | undefined;
  /** How much more both are bent towards the heel than towards the toe. */
  readonly skew: number;
  /** How wide the sharpest edges are, as a fraction of the flank's height; undefined where nothing stands out at all. */
  readonly softness: number | undefined;
  /** Mean step in colour along both edges together, ΔE*ab: see {@link faintness}. */
  readonly step: number;
  /** Whether another line in the photo would do nearly as well. */
  readonly doubtful: boolean;
}

const most = 0.9;
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
  const skew = likeliestSkew(colours, belowRoot);
  const crown = candidates.map((bend) => difference(colours, 1, { bend, skew, every: 1 }));
  const root = candidates.map((bend) => difference(belowRoot, 0, { bend, skew, every: 1 }));
  const together = crown.map((value, n) => value + 0.5 * (root[n] ?? 0));
  const seen = { skew, softness: softness(colours), step: Math.max(...together) };
  if (!standsOut(together)) return { ...seen, crown: undefined, root: undefined, doubtful: false };
  const both = peak(together);
  const crownBend = standsOut(crown) ? nearPeak(crown, both) : both;
  const rootBend = standsOut(root) ? nearPeak(root, crownBend) : crownBend;
  return { ...seen, crown: crownBend, root: rootBend, doubtful: hasRival(together, both) };
}

/**
 * How doubtful the long edges are for want of a step in colour along them, 0…1: of rendered photos those read off a wrong
 * line showed steps below 7, and one of 12.
 */
export const faintness = ({ step }: LongEdges): number => Math.min(1, Math.max(0, (13 - step) / 5));

const skews = [0, -0.06, 0.06, -0.12, 0.12];
/** A skew that no flank has: the nearer to it, the better a line must fit. */
const farSkew = 0.27;

/** The skew with which some bend fits best, looked for coarsely: every second bend and every third column. */
function likeliestSkew(colours: Colours, belowRoot: Colours): number {
  let best = { skew: 0, score: -Infinity };
  for (const skew of skews) {
    for (let n = 0; n < candidates.length; n += 2) {
      const arc = { bend: candidates[n] ?? 0, skew, every: 3 };
      const score = (1 - (skew / farSkew) ** 2) * (difference(colours, 1, arc) + 0.5 * difference(belowRoot, 0, arc));
      if (score > best.score) best = { skew, score };
    }
  }
  return best.skew;
}

/** An arc from corner to corner, and how many of its columns are looked at. */
interface Arc {
  readonly bend: number;
  readonly skew: number;
  readonly every: number;
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

/**
 * Mean colour step across an arc from corner to corner, each step counted up to `enough` and only as far as it goes the
 * way of most: specks on a land differ too, but now this way and now that.
 */
function difference(colours: Colours, edge: 0 | 1, { bend, skew, every }: Arc): number {
  const [first, last] = [Math.round(0.06 * beside.columns), Math.round(0.94 * beside.columns)];
  const steps: Three[] = [];
  for (let column = first; column < last; column += every) {
    const up = edge + archAt((column + 0.5) / beside.columns, bend, skew);
    const above = colourAt(colours, rowOf(up + aside) * beside.columns + column);
    const below = colourAt(colours, rowOf(up - aside) * beside.columns + column);
    steps.push([above[0] - below[0], above[1] - below[1], above[2] - below[2]]);
  }
  return agreement(steps, enough);
}

const apart = ([L, a, b]: Colours, p: number, q: number): number =>
  Math.hypot(L.cell(p) - L.cell(q), a.cell(p) - a.cell(q), b.cell(p) - b.cell(q));

/** Whether the best arc is clearly better than most. */
function standsOut(values: readonly number[]): boolean {
  const sorted = values.toSorted((p, q) => p - q);
  const [middle, best] = [sorted[Math.floor(sorted.length / 2)] ?? 0, sorted.at(-1) ?? 0];
  return best > 3.5 && best > 1.5 * middle;
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
function softness(colours: Colours): number | undefined {
  const widths: number[] = [];
  for (let column = 2; column < beside.columns - 2; column += 1) {
    const width = sharpestStep(colours, column);
    if (width !== undefined) widths.push(width);
  }
  if (widths.length < beside.columns / 4) return undefined;
  return widths.toSorted((p, q) => p - q)[Math.floor(widths.length / 2)];
}

/** Largest colour difference in a column over the steepest change in it, as a fraction of the flank's height. */
function sharpestStep(colours: Colours, column: number): number | undefined {
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
