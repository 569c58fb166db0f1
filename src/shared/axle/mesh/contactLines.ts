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

/** How a tooth pair closes along its roll. Places are counted in lines from line 0, fractions between them. */
export interface Closing {
  /** Smallest gap on each contact line (mm); infinite where a line crosses nothing of the flank. */
  readonly smallest: Float64Array;
  /** Smallest gap of all (mm). */
  readonly least: number;
  /** The stretch over which this tooth carries: beyond it a neighbour closes first. */
  readonly from: number;
  readonly to: number;
  /** Mean over that stretch of the smallest gap: what a gear rocked anywhere finds on average (mm). */
  readonly touch: number;
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
  const peak = smallest.reduce((best, gap, line) => (gap < (smallest[best] ?? 0) ? line : best), 0);
  const [from, to] = [takenOver(smallest, peak, -1), takenOver(smallest, peak, 1)];
  return { smallest, least: smallest[peak] ?? 0, from, to, touch: meanBetween(smallest, from, to) };
}

/** Where, walking from the tightest line, the tooth one pitch back closes as far as this one. */
function takenOver(smallest: Float64Array, peak: number, direction: 1 | -1): number {
  const lead = (line: number): number =>
    (smallest[line - direction * linesInPitch] ?? Number.POSITIVE_INFINITY) - (smallest[line] ?? 0);
  for (let line = peak; Number.isFinite(smallest[line + direction]); line += direction) {
    const [here, next] = [lead(line), lead(line + direction)];
    // A neighbour whose flank only begins here takes over at once.
    if (next < 0) return line + direction * (Number.isFinite(here) ? here / (here - next) : 1);
  }
  // No neighbour takes over before the flank ends: it carries to its last line.
  return lastFinite(smallest, peak, direction);
}

function lastFinite(smallest: Float64Array, peak: number, direction: 1 | -1): number {
  let line = peak;
  while (Number.isFinite(smallest[line + direction])) line += direction;
  return line;
}

/** A line's value between two lines; beyond the last line of the flank, that line's own. */
export function between(values: Float64Array, place: number): number {
  const line = Math.floor(place);
  const low = values[line] ?? Number.POSITIVE_INFINITY;
  const high = values[line + 1] ?? Number.POSITIVE_INFINITY;
  if (!Number.isFinite(low)) return high;
  return Number.isFinite(high) ? low + (high - low) * (place - line) : low;
}

function meanBetween(values: Float64Array, from: number, to: number): number {
  const samples = 12;
  const places = Array.from({ length: samples }, (_, sample) => from + ((to - from) * (sample + 0.5)) / samples);
  return places.reduce((sum, place) => sum + between(values, place), 0) / samples;
}
