import type { EdgeContact, Mark } from '../mark/mark.ts';
import { columns, crownOf, type FlankGrid, heelOf, rows } from './flankGrid.ts';
import type { Paint } from './paint.ts';

/** Compound squeezed to less than this share of its thickness leaves a sharp line at an edge (own choice, no source). */
const squeezed = 0.5;

/** The mark as it would be read off the painted flank: place, size, slant and edges, in fractions of the flank. */
export function markFrom(grid: FlankGrid, paint: Paint, film: number): Mark {
  const moments = momentsOf(grid, paint.covered);
  const length = extent(paint.covered, columns, (along, across) => along * rows + across, rows);
  const height = extent(paint.covered, rows, (along, across) => across * rows + along, columns);
  return {
    heel: clipped(moments.heel),
    crown: clipped(moments.crown),
    length,
    height,
    slant_deg: slantOf(grid, moments),
    edges: {
      toe: edge(paint, film, rows, (step) => step),
      heel: edge(paint, film, rows, (step) => (columns - 1) * rows + step),
      crown: edge(paint, film, columns, (step) => step * rows + rows - 1),
      root: edge(paint, film, columns, (step) => step * rows),
    },
  };
}

interface Moments {
  readonly heel: number;
  readonly crown: number;
  readonly heelHeel: number;
  readonly heelCrown: number;
  readonly crownCrown: number;
}

/** Area centroid and second moments about it, in fractions. A mark finer than the grid is its tightest point. */
function momentsOf(grid: FlankGrid, covered: Float64Array): Moments {
  const sums = [0, 0, 0, 0, 0, 0];
  const add = (slot: number, value: number): void => {
    sums[slot] = (sums[slot] ?? 0) + value;
  };
  for (let index = 0; index < covered.length; index += 1) {
    const weight = (covered[index] ?? 0) * (grid.area[index] ?? 0);
    if (weight === 0) continue;
    const row = index % rows;
    const [heel, crown] = [heelOf((index - row) / rows), crownOf(row)];
    [1, heel, crown, heel * heel, heel * crown, crown * crown].forEach((term, slot) => add(slot, weight * term));
  }
  const [area = 0, h = 0, c = 0, hh = 0, hc = 0, cc = 0] = sums;
  if (area === 0) return { heel: 0, crown: 0, heelHeel: 0, heelCrown: 0, crownCrown: 0 };
  const [heel, crown] = [h / area, c / area];
  return {
    heel,
    crown,
    heelHeel: hh / area - heel * heel,
    heelCrown: hc / area - heel * crown,
    crownCrown: cc / area - crown * crown,
  };
}

const clipped = (place: number): number => Math.min(0.5, Math.max(-0.5, place));

/** Long axis against the face in degrees, measured in millimetres on the tooth as an eye would. */
function slantOf(grid: FlankGrid, moments: Moments): number {
  const { faceWidth, height } = grid.visible;
  const along = moments.heelHeel * faceWidth * faceWidth;
  const up = moments.crownCrown * height * height;
  const both = moments.heelCrown * faceWidth * height;
  return (Math.atan2(2 * both, along - up) * 90) / Math.PI;
}

/** Full extent of what is covered in one direction, as a fraction: cells count as far as they are covered. */
function extent(
  covered: Float64Array,
  count: number,
  indexOf: (along: number, across: number) => number,
  across: number,
): number {
  const most = Array.from({ length: count }, (_, along) =>
    Array.from({ length: across }, (_, step) => covered[indexOf(along, step)] ?? 0).reduce((a, b) => Math.max(a, b)),
  );
  const first = most.findIndex((share) => share > 0);
  if (first < 0) return 0;
  const last = most.findLastIndex((share) => share > 0);
  const low = Math.max(0, first + 0.5 - (most[first] ?? 0));
  const high = Math.min(count - 1, last - 0.5 + (most[last] ?? 0));
  return Math.max(0, high - low) / (count - 1);
}

/** How the mark meets the edge whose points `indexOf` walks. */
function edge(paint: Paint, film: number, count: number, indexOf: (step: number) => number): EdgeContact {
  const clearances = Array.from({ length: count }, (_, step) => indexOf(step))
    .filter((index) => (paint.covered[index] ?? 0) > 0.5)
    .map((index) => paint.clearance[index] ?? 0);
  if (clearances.length === 0) return 'clear';
  return Math.min(...clearances) < squeezed * film ? 'hard' : 'feathered';
}
