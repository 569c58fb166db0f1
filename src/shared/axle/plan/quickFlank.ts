import { between, closingAlong, type Closing, type ContactLines, linesAcross } from '../mesh/contactLines.ts';
import { columns as fineColumns, type FlankGrid, rows as fineRows } from '../mesh/flankGrid.ts';

/** Every so many points of the mesh model's grid: enough for a mark's centre to 0.01, and some thirty times quicker. */
const stride = 4;
const columns = (fineColumns - 1) / stride + 1;
const rows = (fineRows - 1) / stride + 1;

/** What one movement does at each point, for each mm moved: as in the mesh model's grid. */
interface Moved {
  readonly gap: Float64Array;
  readonly partnerU: Float64Array;
  readonly partnerV: Float64Array;
}

/** One flank thinned out for the many guesses a plan weighs; the full mesh model draws the picture. */
export interface QuickFlank {
  readonly faceWidth: number;
  readonly height: number;
  /** Normal travel for each radian of the ring gear (mm), unsigned. */
  readonly lever: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly roll: Float64Array;
  readonly bend: Float64Array;
  readonly pinionOut: Moved;
  readonly ringAway: Moved;
  readonly area: Float64Array;
  readonly lines: ContactLines;
}

/** @param pitch ring-gear roll from one tooth to the next (rad). */
export function quickFlankOf(grid: FlankGrid, lever: number, pitch: number): QuickFlank {
  const moved = ({ gap, partnerU, partnerV }: Moved): Moved => ({
    gap: thinned(gap),
    partnerU: thinned(partnerU),
    partnerV: thinned(partnerV),
  });
  const roll = thinned(grid.roll);
  return {
    faceWidth: grid.visible.faceWidth,
    height: grid.visible.height,
    lever: Math.abs(lever),
    u: thinned(grid.u),
    v: thinned(grid.v),
    roll,
    bend: thinned(grid.bend),
    pinionOut: moved(grid.pinionOut),
    ringAway: moved(grid.ringAway),
    area: thinned(grid.area),
    lines: linesAcross(roll, rows, pitch),
  };
}

const thinned = (fine: Float64Array): Float64Array =>
  Float64Array.from({ length: columns * rows }, (_, index) => {
    const row = index % rows;
    return fine[((index - row) / rows) * stride * fineRows + row * stride] ?? 0;
  });

/** How a flank is relieved, its apex in fractions of the flank; curvatures in 1/mm as in the mesh model. */
export interface Relief {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly heel: number;
  readonly crown: number;
  /** What the model's tilt of the gap along the face is off by, for each mm moved (1/mm per mm). */
  readonly alongOut: number;
  readonly alongAway: number;
}

/** A mark as the thinned flank shows it. */
export interface QuickMark {
  readonly heel: number;
  readonly crown: number;
  readonly length: number;
  readonly height: number;
  /** Gap at the tightest place of each edge, as a share of the film: below 1 the mark reaches it. Toe, heel, crown, root. */
  readonly edgeGaps: readonly [number, number, number, number];
  /** Ring-gear turn until this flank touches, against none moved and none relieved (rad). */
  readonly turn: number;
}

/** How the gears stand (mm from where the relief belongs) and are painted. */
export interface Standing {
  readonly pinionOut: number;
  readonly ringAway: number;
  /** Thickness of the compound (mm). */
  readonly film: number;
  /**
   * How far the gears follow this tooth pair as they roll: 1, each contact line comes down to its own smallest gap, as in
   * the mesh model; 0, the film and the neighbouring pairs hold them, and only what lies near the closest place of the
   * whole flank is painted.
   */
  readonly rolled: number;
}

/** The mark with everything moved: pinion out and ring gear away from where the relief belongs. */
export function quickMark(flank: QuickFlank, relief: Relief, standing: Standing): QuickMark {
  const { film, rolled } = standing;
  const gaps = gapsOver(flank, relief, standing);
  const closing = closingAlong(flank.lines, gaps);
  const clearance = clearanceOver(flank, gaps, closing, rolled);
  const covered = coverageOf(clearance, film);
  return {
    ...centroid(flank, covered),
    ...extents(covered),
    edgeGaps: edgeGapsOf(clearance, film),
    turn: (rolled * closing.touch + (1 - rolled) * closing.least) / flank.lever,
  };
}

function gapsOver(flank: QuickFlank, relief: Relief, { pinionOut, ringAway }: Standing): Float64Array {
  const { u, v, pinionOut: out, ringAway: away } = flank;
  const [apexU, apexV] = [relief.heel * flank.faceWidth, relief.crown * flank.height];
  const along = relief.alongOut * pinionOut + relief.alongAway * ringAway;
  const gaps = new Float64Array(u.length);
  for (let index = 0; index < gaps.length; index += 1) {
    const du =
      (u[index] ?? 0) - apexU + pinionOut * (out.partnerU[index] ?? 0) + ringAway * (away.partnerU[index] ?? 0);
    const dv =
      (v[index] ?? 0) - apexV + pinionOut * (out.partnerV[index] ?? 0) + ringAway * (away.partnerV[index] ?? 0);
    gaps[index] =
      (relief.a * du * du + 2 * relief.b * du * dv + relief.c * dv * dv) / 2 +
      along * (u[index] ?? 0) +
      pinionOut * (out.gap[index] ?? 0) +
      ringAway * (away.gap[index] ?? 0);
  }
  return gaps;
}

/** How close each point came while its tooth carried (mm); the mesh model's paint says why. */
function clearanceOver(flank: QuickFlank, gaps: Float64Array, closing: Closing, rolled: number): Float64Array {
  const { first, step } = flank.lines;
  const clearance = new Float64Array(gaps.length);
  for (let index = 0; index < gaps.length; index += 1) {
    const own = ((flank.roll[index] ?? 0) - first) / step;
    const nearest = Math.min(closing.to, Math.max(closing.from, own));
    const missed = (own - nearest) * step;
    const followed = between(closing.smallest, nearest) - ((flank.bend[index] ?? 0) * missed * missed) / 2;
    clearance[index] = (gaps[index] ?? 0) - rolled * followed - (1 - rolled) * closing.least;
  }
  return clearance;
}

/** How much of each point's cell is painted, blurred over a cell so that marks move smoothly with the guess. */
function coverageOf(clearance: Float64Array, film: number): Float64Array {
  const covered = new Float64Array(clearance.length);
  for (let index = 0; index < covered.length; index += 1) {
    const left = film - (clearance[index] ?? 0);
    covered[index] = Math.min(1, Math.max(0, 0.5 + left / Math.max(slope(clearance, index), 1e-9)));
  }
  return covered;
}

/** Change over one cell in both directions together. */
function slope(values: Float64Array, index: number): number {
  const row = index % rows;
  const column = (index - row) / rows;
  return side(values, index, rows, column > 0, column < columns - 1) + side(values, index, 1, row > 0, row < rows - 1);
}

function side(values: Float64Array, index: number, step: number, hasBefore: boolean, hasAfter: boolean): number {
  const here = values[index] ?? 0;
  const before = hasBefore ? Math.abs(here - (values[index - step] ?? 0)) : Number.POSITIVE_INFINITY;
  const after = hasAfter ? Math.abs((values[index + step] ?? 0) - here) : Number.POSITIVE_INFINITY;
  return Math.min(before, after);
}

const heelOf = (column: number): number => column / (columns - 1) - 0.5;
const crownOf = (row: number): number => row / (rows - 1) - 0.5;

function centroid(flank: QuickFlank, covered: Float64Array): { heel: number; crown: number } {
  let [area, heel, crown] = [0, 0, 0];
  for (let index = 0; index < covered.length; index += 1) {
    const weight = (covered[index] ?? 0) * (flank.area[index] ?? 0);
    if (weight === 0) continue;
    const row = index % rows;
    area += weight;
    heel += weight * heelOf((index - row) / rows);
    crown += weight * crownOf(row);
  }
  return area === 0 ? { heel: 0, crown: 0 } : { heel: heel / area, crown: crown / area };
}

function extents(covered: Float64Array): { length: number; height: number } {
  const along = new Float64Array(columns);
  const up = new Float64Array(rows);
  for (let index = 0; index < covered.length; index += 1) {
    const row = index % rows;
    const column = (index - row) / rows;
    along[column] = Math.max(along[column] ?? 0, covered[index] ?? 0);
    up[row] = Math.max(up[row] ?? 0, covered[index] ?? 0);
  }
  return { length: extent(along), height: extent(up) };
}

/** Cells count as far as they are covered. */
function extent(most: Float64Array): number {
  const first = most.findIndex((share) => share > 0);
  if (first < 0) return 0;
  const last = most.findLastIndex((share) => share > 0);
  const low = Math.max(0, first + 0.5 - (most[first] ?? 0));
  const high = Math.min(most.length - 1, last - 0.5 + (most[last] ?? 0));
  return Math.max(0, high - low) / (most.length - 1);
}

function edgeGapsOf(clearance: Float64Array, film: number): [number, number, number, number] {
  const at = (from: number, step: number, count: number): number => {
    let tightest = Number.POSITIVE_INFINITY;
    for (let n = 0; n < count; n += 1) tightest = Math.min(tightest, clearance[from + n * step] ?? tightest);
    return tightest / film;
  };
  return [at(0, 1, rows), at((columns - 1) * rows, 1, rows), at(rows - 1, rows, columns), at(0, rows, columns)];
}
