import type { Field } from '../../basics/field.ts';
import { withoutGlare } from './glare.ts';
import { labPlanes } from './labPlanes.ts';
import { type Chosen, type Colours, laidThrough } from './paint.ts';
import { cleaned, regions } from './regions.ts';
import { quantile } from './smoothing.ts';
import { solidity } from './solidity.ts';
import type { FlankRaster } from './straighten.ts';
import { tellApart, type ToldApart } from './tellApart.ts';
import { twoClasses } from './twoClasses.ts';

/** How much each cell of a flank looks like the mark: 0 the compound as it was laid, 1 where it is gone. */
export interface Separation {
  readonly bareness: Field;
  /** Cells that show nothing: burnt out, or outside the photo. Their bareness is their neighbours'. */
  readonly blind: Uint8Array;
  /** By what the two were told apart. */
  readonly by: 'colour' | 'lightness';
  /** How different compound and mark look, ΔE*ab. */
  readonly contrast: number;
  /** The same in standard deviations of what compound and metal each vary by themselves. */
  readonly apart: number;
  /** Share of the bareness that two heaps explain, 0…1. */
  readonly explained: number;
  /** Share of the face, from an end inwards, that is dark over the whole height: shadow or mark, nobody can tell. */
  readonly darkEnd: number;
}

/** Below this difference in hue and saturation it is lightness that tells the two apart: a white or grey compound. */
const colourful = 8;

/**
 * Tells the mark from the compound, whatever its colour. It is begun in three ways: the compound is the more colourful of
 * the two; the lighter; the darker. What comes out is judged by how well the two are told apart and by whether what is
 * bare lies on the flank as marks do: in one piece, without bays, within the flank more than along its rim.
 * @returns undefined where the flank is of one kind only
 */
export function separate(raster: FlankRaster): Separation | undefined {
  const colours = labPlanes(raster);
  let best: { readonly told: ToldApart; readonly merit: number } | undefined;
  for (const start of starts(colours, raster)) {
    const told = beginning(raster, colours, start);
    if (told === undefined) continue;
    const merit = told.apart * likeMark(told.bareness);
    if (best === undefined || merit > best.merit) best = { told, merit };
    if (merit > plainly) break;
  }
  return best === undefined ? undefined : finished(raster, best.told);
}

/** Difference in hue and saturation from which on a compound is known by its colour even where light is mirrored on it. */
const vivid = 14;

/** Told apart from one first guess; a colourful compound once more, without the light that is mirrored on it. */
function beginning(raster: FlankRaster, colours: Colours, start: Field): ToldApart | undefined {
  const sees = (cell: number) => raster.blind[cell] !== 1;
  const told = tellApart(colours, sees, start, 3);
  if (told === undefined || Math.hypot(told.difference[1], told.difference[2]) < vivid) {
    return told && tellApart(colours, sees, told.bareness, 1);
  }
  const dull = labPlanes(withoutGlare(raster, told.compound[0]));
  return tellApart(dull, sees, told.bareness, 2) ?? told;
}

/** Merit beyond which no other beginning can do better. */
const plainly = 5;

/** First guesses of bareness, the likeliest first. */
function* starts(colours: Colours, raster: FlankRaster): Generator<Field> {
  const all: Chosen = raster.blind.map((blind) => 1 - blind);
  const guess = (field: Field) => heaps(field, (cell) => all[cell] === 1);
  yield guess(hueReach(colours, all));
  const [light] = laidThrough(colours, all, 15);
  const shade = colours[0].map((L, cell) => L - light.cell(cell));
  yield guess(shade);
  yield guess(shade.map((value) => -value));
}

function heaps(field: Field, counts: (cell: number) => boolean): Field {
  const { low, high } = twoClasses(field.values, counts);
  return field.map((value) => (high > low ? (high - value) / (high - low) : 0.5));
}

/** How far every cell reaches along the hue of the most colourful part of the flank. */
function hueReach([, a, b]: Colours, seen: Chosen): Field {
  const chroma = a.map((one, cell) => (seen[cell] === 1 ? Math.hypot(one, b.cell(cell)) : 0));
  const vivid = 0.8 * quantile(chroma.values, 0.9);
  let [sumA, sumB] = [0, 0];
  chroma.values.forEach((one, cell) => {
    if (one < vivid) return;
    sumA += a.cell(cell);
    sumB += b.cell(cell);
  });
  const size = Math.hypot(sumA, sumB) || 1;
  return a.map((one, cell) => (one * sumA + b.cell(cell) * sumB) / size);
}

/** How much what is bare lies as a mark lies, 0…1. */
function likeMark(bareness: Field): number {
  const bareCells = bareness.where((value) => value > 0.5);
  const mask = cleaned(bareCells, bareness);
  const [main] = regions(mask, bareness, 1);
  if (main === undefined) return 0;
  let bare = 0;
  for (const one of bareCells) bare += one;
  const whole = Math.min(1, main.cells.length / Math.max(1, bare));
  return whole * solidity(main, bareness) * (1 - rimShare(mask, bareness));
}

/** Share of the flank's rim that is bare. */
function rimShare(mask: Uint8Array, { columns, rows }: Field): number {
  const rim = [
    ...Array.from({ length: columns }, (_, column) => [column, (rows - 1) * columns + column]).flat(),
    ...Array.from({ length: rows }, (_, row) => [row * columns, row * columns + columns - 1]).flat(),
  ];
  return rim.filter((cell) => mask[cell] === 1).length / rim.length;
}

function finished(raster: FlankRaster, { bareness, difference, apart }: ToldApart): Separation {
  const filled = filledIn(bareness, raster.blind);
  const { explained } = twoClasses(filled.values, (cell) => raster.blind[cell] !== 1);
  const byLight = Math.hypot(difference[1], difference[2]) < colourful;
  return {
    bareness: filled,
    blind: raster.blind,
    by: byLight ? 'lightness' : 'colour',
    contrast: Math.hypot(...difference),
    apart,
    explained,
    darkEnd: byLight && difference[0] > 0 ? darkEnd(filled) : 0,
  };
}

/** Length of the longer run of columns from toe or heel that hold no compound at all, as a share of the face. */
function darkEnd(bareness: Field): number {
  const dark = Array.from({ length: bareness.columns }, (_, column) =>
    Array.from({ length: bareness.rows }, (_, row) => bareness.at(column, row)).every((value) => value > 0.5),
  );
  const run = (order: readonly boolean[]): number => (order.includes(false) ? order.indexOf(false) : order.length);
  return Math.max(run(dark), run(dark.toReversed())) / bareness.columns;
}

/** Blind cells take what their neighbours show, spread inwards until it settles. */
function filledIn(bareness: Field, blind: Uint8Array): Field {
  const { columns, rows } = bareness;
  const field = bareness.map((value, cell) => (blind[cell] === 1 ? 0.5 : value));
  const cells = [...blind.keys()].filter((cell) => blind[cell] === 1);
  for (let round = 0; round < 80 && cells.length > 0; round += 1) {
    for (const cell of cells) {
      const column = cell % columns;
      const row = (cell - column) / columns;
      const left = field.at(Math.max(0, column - 1), row);
      const right = field.at(Math.min(columns - 1, column + 1), row);
      const below = field.at(column, Math.max(0, row - 1));
      const above = field.at(column, Math.min(rows - 1, row + 1));
      field.values[cell] = (left + right + below + above) / 4;
    }
  }
  return field;
}
