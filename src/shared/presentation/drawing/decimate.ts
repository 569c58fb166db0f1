import { isNone, type OrNone } from '../../basics/result.ts';

/** A reading in time, or the place where readings are missing. */
export interface TracePoint {
  /** Seconds on the bench's monotonic clock. */
  readonly t: number;
  readonly v: OrNone<number>;
}

/** A stretch without a gap. */
export type Stretch = readonly { readonly t: number; readonly v: number }[];

type Sample = Stretch[number];

const isSample = (point: TracePoint): point is Sample => !isNone(point.v);

/** Cuts readings from a time on into stretches at every point that is not a number, so that no line crosses a gap. */
export function stretchesOf(points: readonly TracePoint[], from_s = -Infinity): readonly Stretch[] {
  const stretches: Sample[][] = [];
  let open: Sample[] | undefined;
  for (const point of points) {
    if (point.t < from_s) continue;
    if (!isSample(point)) {
      open = undefined;
      continue;
    }
    if (open === undefined) stretches.push((open = []));
    open.push(point);
  }
  return stretches;
}

interface Column {
  readonly index: number;
  readonly first: Sample;
  last: Sample;
  low: Sample;
  high: Sample;
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
