import { archAt, besideEdge, type Bends, type FlankMap, mapFlank, middleVectors } from './flankMap.ts';
import type { Field } from '../../basics/field.ts';
import { labPlanes } from './labPlanes.ts';
import type { Colours } from './paint.ts';
import type { FlankCorners, Photo, Pixel } from './photo.ts';
import { straighten } from './straighten.ts';

/** Where crown and root run, found near where taps and arcs put them. */
interface SettledEdges {
  readonly corners: FlankCorners;
  readonly bends: Bends;
  readonly skew: number;
}

type LongEdge = 'crown' | 'root';

/**
 * Settles crown and root on the lines that the photo shows: a tap on a corner is good to a fiftieth of the flank's
 * height, its long edges show to half of that and better. The crown first, because bare land beside it stands out; the
 * root then near the same bend, because beside it lies compound again, and soon the land of the next tooth, which
 * would pass for it. Corners move along the height only: along the face a tap is good enough.
 */
export function settleEdges(photo: Photo, map: FlankMap): SettledEdges {
  const crown = settledCrown(photo, map);
  const bend = map.bends.crown + crown.bend;
  const alike: Bends = { ...map.bends, crown: bend, root: bend + rootMore };
  const skew = map.skew + crown.skew;
  const bent = mapFlank(map.corners, alike, { skew });
  const root = settledRoot(photo, bent.ok ? bent.value : map);
  const [, height] = middleVectors(map.corners);
  const moved = ([x, y]: Pixel, by: number): Pixel => [x + by * height[0], y + by * height[1]];
  const [a, b, c, d] = map.corners;
  return {
    corners: [moved(a, root.toe), moved(b, crown.toe), moved(c, crown.heel), moved(d, root.heel)],
    bends: { ...alike, root: alike.root + root.bend },
    skew,
  };
}

/** So much more the root is bent towards the crown than the crown itself, give or take (from rendered photographs). */
const rootMore = 0.01;

/** How an edge moves: at its two ends and in its middle, as fractions of the height. */
interface Move {
  readonly toe: number;
  readonly heel: number;
  readonly bend: number;
}

/** Standard deviations of where taps and arcs put an edge, as fractions of the flank's height. */
const tap = 0.02;
const arc = { crown: 0.015, root: 0.012 } as const;
/**
 * A step in colour (ΔE*ab) counts up to this: beside the crown lies another material; beside the root the same one in
 * less light, and any stronger line is something else's.
 */
const enough = { crown: 14, root: 4 } as const;
/** How much likelier one unit of mean step makes a line, as a logarithm (from rendered photographs). */
const tells = { crown: 3, root: 6 } as const;

/** Farthest move looked at, and what is laid straight beyond it to compare with. */
const reach = 0.09;
const margin = 0.03;
const strip = { columns: 80, rows: 96, samples: 3 } as const;
const perRow = (2 * (reach + margin)) / strip.rows;

function settledCrown(photo: Photo, map: FlankMap): Move & { readonly skew: number } {
  const steps = stepsBeside(photo, map, 'crown');
  const ends = likeliest(steps, 'crown', 0);
  const skew = likeliestSkew(steps, ends);
  return { ...likeliest(steps, 'crown', skew), skew };
}

/** The root is skewed as the crown is: it is the same arc, seen from the same place. */
const settledRoot = (photo: Photo, map: FlankMap): Move => likeliest(stepsBeside(photo, map, 'root'), 'root', 0);

function stepsBeside(photo: Photo, map: FlankMap, edge: LongEdge): Field {
  const home = edge === 'crown' ? 1 : 0;
  const around = { ...strip, low: home - reach - margin, high: home + reach + margin };
  return stepsAcross(labPlanes(straighten(photo, besideEdge(map, edge), around)), enough[edge]);
}

/** Rows on each side whose colours are compared: a hundredth of the height. */
const aside = 5;

/** How much colours differ above and below each cell, up to a limit. */
function stepsAcross([L, a, b]: Colours, most: number): Field {
  const { columns, rows } = L;
  return L.map((_, cell) => {
    const inside = cell >= aside * columns && cell < (rows - aside) * columns;
    return inside ? Math.min(most, Math.hypot(stepIn(L, cell), stepIn(a, cell), stepIn(b, cell))) : 0;
  });
}

function stepIn(plane: Field, cell: number): number {
  let difference = 0;
  for (let n = 1; n <= aside; n += 1) {
    difference += plane.cell(cell + n * strip.columns) - plane.cell(cell - n * strip.columns);
  }
  return difference / aside;
}

const grain = 0.006;
const upTo = (most: number): readonly number[] => {
  const count = Math.round(most / grain);
  return Array.from({ length: 2 * count + 1 }, (_, n) => (n - count) * grain);
};
const [endMoves, bendMoves] = [upTo(reach), upTo(0.036)];
/** Moves less likely than this beforehand (half their squared departures) are not looked at. */
const unlikely = 8;

/** Mean of all moves, each as likely as the line along it shows and as it is near to what was tapped. */
function likeliest(steps: Field, edge: LongEdge, skew: number): Move {
  const moves: (Move & { readonly score: number })[] = [];
  for (const toe of endMoves) {
    for (const heel of endMoves) {
      for (const bend of bendMoves) {
        const against = ((toe / tap) ** 2 + (heel / tap) ** 2 + (bend / arc[edge]) ** 2) / 2;
        if (against > unlikely) continue;
        moves.push({ toe, heel, bend, score: tells[edge] * meanStep(steps, { toe, heel, bend, skew }) - against });
      }
    }
  }
  const best = moves.reduce((most, { score }) => Math.max(most, score), -Infinity);
  const sum = { weight: 0, toe: 0, heel: 0, bend: 0 };
  for (const { toe, heel, bend, score } of moves) {
    const weight = Math.exp(score - best);
    sum.weight += weight;
    sum.toe += weight * toe;
    sum.heel += weight * heel;
    sum.bend += weight * bend;
  }
  return { toe: sum.toe / sum.weight, heel: sum.heel / sum.weight, bend: sum.bend / sum.weight };
}

/** Standard deviation of the skew, as a fraction of the height, and the farthest that is looked at. */
const skewed = 0.05;
const skewMoves = Array.from({ length: 27 }, (_, n) => (n - 13) * 0.012);
const widerBends = upTo(0.06);

/** Mean of all skews between two ends, each with the bends that go with it. */
function likeliestSkew(steps: Field, { toe, heel, bend: usual }: Move): number {
  const scores = skewMoves.flatMap((skew) =>
    widerBends.map((bend) => {
      const against = ((skew / skewed) ** 2 + (bend / (2 * arc.crown)) ** 2) / 2;
      return { skew, score: tells.crown * meanStep(steps, { toe, heel, bend: usual + bend, skew }) - against };
    }),
  );
  const best = scores.reduce((most, { score }) => Math.max(most, score), -Infinity);
  let [sum, whole] = [0, 0];
  for (const { skew, score } of scores) {
    const weight = Math.exp(score - best);
    sum += weight * skew;
    whole += weight;
  }
  return sum / whole;
}

/** Mean step across one line, every other column. */
function meanStep(steps: Field, { toe, heel, bend, skew }: Move & { readonly skew: number }): number {
  const { columns, rows } = strip;
  let [sum, count] = [0, 0];
  for (let column = 2; column < columns - 2; column += 2) {
    const along = (column + 0.5) / columns;
    const up = toe + along * (heel - toe) + archAt(along, bend, skew);
    const row = Math.round(up / perRow + rows / 2 - 0.5);
    if (row >= 0 && row < rows) sum += steps.at(column, row);
    count += 1;
  }
  return sum / count;
}
