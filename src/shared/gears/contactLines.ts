/** How finely one tooth pitch of roll is divided into contact lines. */
const linesInPitch = 24;

/**
 * The contact lines of a flank: places that touch at the same ring-gear roll. They are kept as the points in which
 * they cross the grid's columns, so that a movement's new gaps can be read along them at once.
 */
export interface ContactLines {
  /** Roll from one line to the next, and of line 0 (rad). */
  readonly step: number;
  readonly first: number;
  readonly count: number;
  /** Crossing k lies on line `line[k]`, between grid points `below[k]` and `below[k]` + 1, at `share[k]` of the way. */
  readonly line: Int32Array;
  readonly below: Int32Array;
  readonly share: Float64Array;
}

/**
 * @param roll meeting roll at each grid point, columns of `rows` points one after the other.
 * @param pitch roll from one tooth to the next (rad).
 */
export function linesAcross(roll: Float64Array, rows: number, pitch: number): ContactLines {
  const step = pitch / linesInPitch;
  const first = Math.floor(roll.reduce((a, b) => Math.min(a, b)) / step);
  const last = Math.ceil(roll.reduce((a, b) => Math.max(a, b)) / step);
  const crossings = Array.from(roll.keys()).flatMap((below) =>
    below % rows === rows - 1 ? [] : crossingsOf(roll[below] ?? 0, roll[below + 1] ?? 0, step, below),
  );
  return {
    step,
    first: first * step,
    count: last - first + 1,
    line: Int32Array.from(crossings, (crossing) => crossing.line - first),
    below: Int32Array.from(crossings, (crossing) => crossing.below),
    share: Float64Array.from(crossings, (crossing) => crossing.share),
  };
}

interface Crossing {
  readonly line: number;
  readonly below: number;
  readonly share: number;
}

/** The lines that pass between two neighbouring points, wherever the roll turns round. */
function crossingsOf(from: number, to: number, step: number, below: number): Crossing[] {
  const low = Math.ceil(Math.min(from, to) / step);
  const high = Math.floor(Math.max(from, to) / step);
  return Array.from({ length: Math.max(0, high - low + 1) }, (_, index) => ({
    line: low + index,
    below,
    share: (step * (low + index) - from) / (to - from),
  }));
}

/** How a tooth pair closes along its roll: the smallest gap on each contact line, and by how much it leads its neighbours. */
export interface Closing {
  readonly smallest: Float64Array;
  /** Neighbours' smallest gap minus this tooth's: positive while this tooth carries. */
  readonly lead: Float64Array;
}

/** Reads `gaps` (one for each grid point) along every contact line. */
export function closingAlong(lines: ContactLines, gaps: Float64Array): Closing {
  const smallest = new Float64Array(lines.count).fill(Number.POSITIVE_INFINITY);
  for (let crossing = 0; crossing < lines.line.length; crossing += 1) {
    const below = lines.below[crossing] ?? 0;
    const low = gaps[below] ?? 0;
    const gap = low + ((gaps[below + 1] ?? 0) - low) * (lines.share[crossing] ?? 0);
    const line = lines.line[crossing] ?? 0;
    if (gap < (smallest[line] ?? 0)) smallest[line] = gap;
  }
  return { smallest, lead: leadOver(smallest) };
}

function leadOver(smallest: Float64Array): Float64Array {
  const near = (line: number): number => smallest[line] ?? Number.POSITIVE_INFINITY;
  return smallest.map((own, line) =>
    // A line that crosses nothing of the flank carries nothing, whatever its neighbours do.
    own === Number.POSITIVE_INFINITY
      ? -1
      : Math.min(near(line - linesInPitch), near(line + linesInPitch), own + 1) - own,
  );
}
