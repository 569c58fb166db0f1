import { isNone, type OrNone } from '../result.ts';

/** A reading in time, or the place where readings are missing. */
export interface TracePoint {
  /** Seconds on the bench's monotonic clock. */
  readonly t: number;
  readonly v: OrNone<number>;
}

/** A stretch without a gap. */
export type Stretch = readonly { readonly t: number; readonly v: number }[];

/** Cuts readings into stretches at every point that is not a number, so that no line crosses a gap. */
export function stretchesOf(points: readonly TracePoint[]): readonly Stretch[] {
  const stretches: { t: number; v: number }[][] = [[]];
  for (const { t, v } of points) {
    if (isNone(v)) stretches.push([]);
    else stretches.at(-1)?.push({ t, v });
  }
  return stretches.filter((stretch) => stretch.length > 0);
}

interface Column {
  readonly index: number;
  first: { t: number; v: number };
  last: { t: number; v: number };
  low: { t: number; v: number };
  high: { t: number; v: number };
}

/**
 * Keeps, for every column of pixels, the first, smallest, largest and last reading: no peak (a breakaway lasts
 * a few readings) can fall between two columns, and the path never has more than four points a column.
 */
export function decimated(stretch: Stretch, seconds_per_column: number): Stretch {
  const columns: Column[] = [];
  for (const point of stretch) {
    const index = Math.floor(point.t / seconds_per_column);
    const column = columns.at(-1);
    if (column === undefined || column.index !== index) {
      columns.push({ index, first: point, last: point, low: point, high: point });
      continue;
    }
    column.last = point;
    if (point.v < column.low.v) column.low = point;
    if (point.v > column.high.v) column.high = point;
  }
  return columns.flatMap(inOrder);
}

function inOrder({ first, last, low, high }: Column): Stretch {
  const [a, b] = low.t <= high.t ? [low, high] : [high, low];
  return [first, a, b, last].filter((point, index, all) => index === 0 || point !== all[index - 1]);
}
