import { labOf, luminance } from './labColour.ts';
import { median, quantile, smoothed, slowSurface, type Surface } from './smoothing.ts';
import type { FlankRaster } from './straighten.ts';
import { type TwoClasses, twoClasses } from './twoClasses.ts';

/** How much each cell of a flank looks like the mark: 0 the compound as it was laid, 1 where it is gone. */
export interface Separation {
  readonly bareness: Float32Array;
  /** Cells that show nothing: burnt out, or outside the photo. Their bareness is their neighbours'. */
  readonly blind: Uint8Array;
  /** By what the two were told apart. */
  readonly by: 'colour' | 'lightness';
  /** How different compound and mark look, in units of L*, a* or b*. */
  readonly contrast: number;
  /** Share of the bareness that two heaps explain, 0…1. */
  readonly explained: number;
  /** Share of the face, from an end inwards, that is dark over the whole height: shadow or mark, nobody can tell. */
  readonly darkEnd: number;
}

/** Below this difference along the compound's hue, lightness tells more: a white or grey compound. */
const colourful = 14;

/**
 * Tells the mark from the compound. The compound is the more colourful of the two, or, when neither is, the lighter.
 * A coloured compound is known by how far a colour reaches along its hue in L*a*b*, which a shadow hardly changes and
 * glare, once its white light is taken off, does not either; a white one by its lightness beside that of its column.
 */
export function separate(raster: FlankRaster): Separation {
  const hue = huePlane(raster);
  const lightness = plane(raster, (L) => L);
  const sees = (cell: number) => raster.blind[cell] !== 1;
  const byHue = twoClasses(hue.along, sees);
  if (byHue.high - byHue.low >= colourful) return byColour(raster, hue, byHue);
  return byLightness(
    raster,
    lightness,
    twoClasses(lightness, () => true),
  );
}

interface HuePlane {
  readonly direction: readonly [number, number];
  readonly along: Float32Array;
}

function plane({ red, green, blue }: FlankRaster, of: (L: number, a: number, b: number) => number): Float32Array {
  return red.map((r, cell) => of(...labOf(r, green[cell] ?? 0, blue[cell] ?? 0)));
}

/** The hue of the most colourful part of the flank, and how far every cell reaches along it. */
function huePlane(raster: FlankRaster): HuePlane {
  const a = plane(raster, (_, one) => one);
  const b = plane(raster, (_, _a, one) => one);
  const chroma = a.map((one, cell) => (raster.blind[cell] === 1 ? 0 : Math.hypot(one, b[cell] ?? 0)));
  const vivid = 0.8 * quantile(chroma, 0.9);
  let [sumA, sumB] = [0, 0];
  chroma.forEach((one, cell) => {
    if (one < vivid) return;
    sumA += a[cell] ?? 0;
    sumB += b[cell] ?? 0;
  });
  const size = Math.hypot(sumA, sumB) || 1;
  const direction = [sumA / size, sumB / size] as const;
  return { direction, along: a.map((one, cell) => one * direction[0] + (b[cell] ?? 0) * direction[1]) };
}

/** Three rounds: what is compound decides what its light is, and its light decides what is compound. */
function byColour(raster: FlankRaster, hue: HuePlane, start: TwoClasses): Separation {
  const brightness = raster.red.map((r, cell) =>
    Math.log(0.004 + luminance(r, raster.green[cell] ?? 0, raster.blue[cell] ?? 0)),
  );
  let along: Float32Array = hue.along;
  let bareness: Float32Array = along.map((x) => (start.high - x) / (start.high - start.low));
  for (let round = 0; round < 3; round += 1) {
    const isFilm = filmCells(raster, bareness);
    along = withoutGlare(raster, hue.direction, slowSurface(brightness, raster, isFilm));
    const film = slowSurface(along, raster, isFilm);
    const bare = levelOf(along, raster, bareness, start.low);
    bareness = between(raster, along, film, () => bare);
  }
  return finished(raster, bareness, 'colour', along);
}

const filmCells = (raster: FlankRaster, bareness: Float32Array) => (cell: number) =>
  raster.blind[cell] !== 1 && (bareness[cell] ?? 1) < 0.35;

function levelOf(field: Float32Array, raster: FlankRaster, bareness: Float32Array, usual: number): number {
  const values: number[] = [];
  for (let cell = 0; cell < field.length; cell += 1) {
    if (raster.blind[cell] !== 1 && (bareness[cell] ?? 0) > 0.7) values.push(field[cell] ?? 0);
  }
  return values.length < 20 ? usual : median(values);
}

/**
 * How far each cell reaches along the compound's hue once white light is taken off it until it is no brighter than the
 * compound near it: mirrored light is white and only adds.
 */
function withoutGlare(
  raster: FlankRaster,
  [towardsA, towardsB]: readonly [number, number],
  film: Surface,
): Float32Array {
  const { columns, rows, green, blue } = raster;
  return raster.red.map((red, cell) => {
    const column = cell % columns;
    const [g, b] = [green[cell] ?? 0, blue[cell] ?? 0];
    const ownLight = Math.exp(film((column + 0.5) / columns, ((cell - column) / columns + 0.5) / rows)) - 0.004;
    const glare = Math.max(0, luminance(red, g, b) - Math.max(0, ownLight));
    const [, labA, labB] = labOf(Math.max(0, red - glare), Math.max(0, g - glare), Math.max(0, b - glare));
    return labA * towardsA + labB * towardsB;
  });
}

function between(raster: FlankRaster, field: Float32Array, film: Surface, bare: Surface): Float32Array {
  const { columns, rows } = raster;
  return field.map((value, cell) => {
    const column = cell % columns;
    const [along, up] = [(column + 0.5) / columns, ((cell - column) / columns + 0.5) / rows];
    const [high, low] = [film(along, up), bare(along, up)];
    return clamped((high - value) / Math.max(4, high - low));
  });
}

const clamped = (x: number): number => Math.min(1.3, Math.max(-0.3, x));

/** A white compound: each column's own brightest part is its compound, so that a shadow across the flank is no mark. */
function byLightness(raster: FlankRaster, lightness: Float32Array, start: TwoClasses): Separation {
  let bareness: Float32Array = lightness.map((L) => (start.high - L) / Math.max(1, start.high - start.low));
  for (let round = 0; round < 3; round += 1) {
    const isFilm = (cell: number) => (bareness[cell] ?? 1) < 0.35;
    const wide = slowSurface(lightness, raster, isFilm);
    const low = levelOf(lightness, raster, bareness, start.low);
    const film = columnLevels(lightness, raster, wide, low);
    bareness = between(raster, lightness, film, shadedLevel(film, wide, low));
  }
  return finished({ ...raster, blind: new Uint8Array(raster.blind.length) }, bareness, 'lightness', lightness);
}

/** Bare metal under a shadow is darker in the same proportion of light: about the same step in L*, a cube root. */
const shadedLevel =
  (film: Surface, wide: Surface, low: number): Surface =>
  (along, up) =>
    low * Math.min(1.1, Math.max(0.5, film(along, up) / Math.max(1, wide(along, up))));

/** Lightness of the compound in each column; where a column holds too little of it, the slow surface's. */
function columnLevels(lightness: Float32Array, raster: FlankRaster, wide: Surface, low: number): Surface {
  const { columns, rows } = raster;
  const levels = Array.from({ length: columns }, (_, column) => {
    const near: number[] = [];
    for (let row = 0; row < rows; row += 1) {
      for (let other = Math.max(0, column - 2); other <= Math.min(columns - 1, column + 2); other += 1) {
        near.push((lightness[row * columns + other] ?? 0) - wide((other + 0.5) / columns, (row + 0.5) / rows));
      }
    }
    return quantile(near, 0.85);
  });
  return (along, up) => {
    const expected = wide(along, up);
    const own = expected + (levels[Math.min(columns - 1, Math.floor(along * columns))] ?? 0);
    return own - low > 0.45 * (expected - low) ? own : expected;
  };
}

function finished(raster: FlankRaster, bareness: Float32Array, by: Separation['by'], seen: Float32Array): Separation {
  const filled = filledIn(raster, bareness);
  const calm = smoothed(filled, raster);
  const { explained } = twoClasses(calm, (cell) => raster.blind[cell] !== 1);
  return {
    bareness: calm,
    blind: raster.blind,
    by,
    contrast: contrastOf(raster, calm, seen),
    explained,
    darkEnd: by === 'colour' ? 0 : darkEnd(raster, calm),
  };
}

/** Length of the longer run of columns from toe or heel that hold no compound at all, as a share of the face. */
function darkEnd({ columns, rows }: FlankRaster, bareness: Float32Array): number {
  const dark = Array.from({ length: columns }, (_, column) =>
    Array.from({ length: rows }, (_, row) => bareness[row * columns + column] ?? 0).every((value) => value > 0.5),
  );
  const run = (order: readonly boolean[]): number => (order.includes(false) ? order.indexOf(false) : columns);
  return Math.max(run(dark), run(dark.toReversed())) / columns;
}

/** How far apart the middle of all compound and the middle of all that is bare are seen. */
function contrastOf({ blind }: FlankRaster, bareness: Float32Array, seen: Float32Array): number {
  const [film, bare]: [number[], number[]] = [[], []];
  for (let cell = 0; cell < seen.length; cell += 1) {
    if (blind[cell] === 1) continue;
    if ((bareness[cell] ?? 0.5) < 0.3) film.push(seen[cell] ?? 0);
    if ((bareness[cell] ?? 0.5) > 0.7) bare.push(seen[cell] ?? 0);
  }
  return film.length === 0 || bare.length === 0 ? 0 : median(film) - median(bare);
}

/** Blind cells take what their neighbours show, spread inwards until it settles. */
function filledIn(raster: FlankRaster, bareness: Float32Array): Float32Array {
  const { columns, rows, blind } = raster;
  const field = bareness.map((value, cell) => (blind[cell] === 1 ? 0.5 : value));
  const cells = [...blind.keys()].filter((cell) => blind[cell] === 1);
  if (cells.length === 0) return field;
  for (let round = 0; round < 80; round += 1) {
    for (const cell of cells) {
      const column = cell % columns;
      const row = (cell - column) / columns;
      const left = field[column > 0 ? cell - 1 : cell] ?? 0;
      const right = field[column < columns - 1 ? cell + 1 : cell] ?? 0;
      const below = field[row > 0 ? cell - columns : cell] ?? 0;
      const above = field[row < rows - 1 ? cell + columns : cell] ?? 0;
      field[cell] = (left + right + below + above) / 4;
    }
  }
  return field;
}
