import { lightOfByte } from './labColour.ts';
import type { FlankMap } from './flankMap.ts';
import type { Photo } from './photo.ts';

/** A flank laid straight: columns from toe to heel, rows from root to crown, linear light in three planes. */
export interface FlankRaster {
  readonly columns: number;
  readonly rows: number;
  readonly red: Float32Array;
  readonly green: Float32Array;
  readonly blue: Float32Array;
  /** 1 where the photo was burnt out, or was not there. */
  readonly blind: Uint8Array;
}

/** Which stretch of the flank's height a raster covers; beyond 0…1 it shows what lies beside the flank. */
export interface Stretch {
  readonly columns: number;
  readonly rows: number;
  readonly low: number;
  readonly high: number;
  /** Samples in a cell, in each direction, beyond which more would add time and no knowledge. */
  readonly samples: number;
}

/** Channels this near to full scale have lost their colour. */
const burnt = 251;

/**
 * Resamples the photo bilinearly, each cell being the mean light of a few samples, as many as its size in pixels asks for.
 * Light is averaged, not bytes: a mean of bytes would darken every edge.
 */
export function straighten(photo: Photo, map: FlankMap, stretch: Stretch): FlankRaster {
  const { columns, rows, low, high } = stretch;
  const raster = emptyRaster(columns, rows);
  const [across, up] = samplesPerCell(map, stretch);
  const sum = new Float64Array(4);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      sum.fill(0);
      for (let j = 0; j < up; j += 1) {
        const height = low + ((high - low) * (row + (j + 0.5) / up)) / rows;
        for (let i = 0; i < across; i += 1) {
          const [x, y] = map.toPhoto((column + (i + 0.5) / across) / columns, height);
          addSample(photo, x, y, sum);
        }
      }
      keep(raster, row * columns + column, sum, across * up);
    }
  }
  return raster;
}

const emptyRaster = (columns: number, rows: number): FlankRaster => ({
  columns,
  rows,
  red: new Float32Array(columns * rows),
  green: new Float32Array(columns * rows),
  blue: new Float32Array(columns * rows),
  blind: new Uint8Array(columns * rows),
});

function samplesPerCell(
  map: FlankMap,
  { columns, rows, low, high, samples: most }: Stretch,
): readonly [number, number] {
  const [left, right] = [map.toPhoto(0.25, 0.5), map.toPhoto(0.75, 0.5)];
  const [foot, top] = [map.toPhoto(0.5, 0.25), map.toPhoto(0.5, 0.75)];
  const wide = (2 * Math.hypot(right[0] - left[0], right[1] - left[1])) / columns;
  const tall = (2 * (high - low) * Math.hypot(top[0] - foot[0], top[1] - foot[1])) / rows;
  const samples = (size: number) => Math.min(most, Math.max(1, Math.ceil(size)));
  return [samples(wide), samples(tall)];
}

/** Adds the light between four pixels to the first three sums, and to the fourth whether it is blind. */
function addSample({ width, height, data }: Photo, x: number, y: number, sum: Float64Array): void {
  // A pixel's value stands for its middle, half a pixel from its corner; taps name pixels by their index.
  const [left, top] = [Math.floor(x), Math.floor(y)];
  if (!(left >= 0 && top >= 0 && left < width - 1 && top < height - 1)) {
    sum[3] = (sum[3] ?? 0) + 1;
    return;
  }
  const [u, v] = [x - left, y - top];
  const at = 4 * (top * width + left);
  const below = at + 4 * width;
  let clipped = 0;
  for (let channel = 0; channel < 3; channel += 1) {
    const a = data[at + channel] ?? 0;
    const b = data[at + 4 + channel] ?? 0;
    const c = data[below + channel] ?? 0;
    const d = data[below + 4 + channel] ?? 0;
    const upper = lightOf(a) * (1 - u) + lightOf(b) * u;
    const lower = lightOf(c) * (1 - u) + lightOf(d) * u;
    sum[channel] = (sum[channel] ?? 0) + upper * (1 - v) + lower * v;
    if (a >= burnt) clipped += 1;
  }
  if (clipped === 3) sum[3] = (sum[3] ?? 0) + 1;
}

const lightOf = (byte: number): number => lightOfByte[byte] ?? 0;

function keep(raster: FlankRaster, cell: number, sum: Float64Array, samples: number): void {
  raster.red[cell] = (sum[0] ?? 0) / samples;
  raster.green[cell] = (sum[1] ?? 0) / samples;
  raster.blue[cell] = (sum[2] ?? 0) / samples;
  raster.blind[cell] = (sum[3] ?? 0) * 2 > samples ? 1 : 0;
}
