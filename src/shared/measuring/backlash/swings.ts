/**
 * Counts strokes by their turning points alone, held or not. Where there are many more strokes than rests the gear was
 * rocked and not held, and the technician must be told so rather than shown nothing.
 */
export interface Swings {
  count: number;
  direction: -1 | 0 | 1;
  /** Where the present stroke began and the farthest it has come. */
  from: number;
  farthest: number;
  /** Lengths of the last stroke and of the one before. */
  last: number;
  before: number;
}

/** A way back shorter than this share of the strokes before is a rebound: those reach a third at most. */
const REBOUND = 0.45;

export const newSwings = (): Swings => ({ count: 0, direction: 0, from: NaN, farthest: NaN, last: 0, before: 0 });

/** Counts from nought again, from where the movement now is. */
export function restartSwings(swings: Swings): void {
  Object.assign(swings, newSwings());
}

/** Takes in one reading; a way back of `least`, and of a fair share of the strokes before, ends a stroke. */
export function swing(swings: Swings, value: number, least: number): void {
  if (swings.direction === 0) return begin(swings, value, least);
  const beyond = (value - swings.farthest) * swings.direction;
  if (beyond >= 0) swings.farthest = value;
  else if (-beyond >= Math.max(least, REBOUND * Math.min(swings.last, swings.before))) turnRound(swings, value);
}

function turnRound(swings: Swings, value: number): void {
  swings.count += 1;
  swings.direction = swings.direction === 1 ? -1 : 1;
  swings.before = swings.last;
  swings.last = Math.abs(swings.farthest - swings.from);
  swings.from = swings.farthest;
  swings.farthest = value;
}

function begin(swings: Swings, value: number, least: number): void {
  if (Number.isNaN(swings.from)) swings.from = value;
  const gone = value - swings.from;
  if (Math.abs(gone) < least) return;
  swings.direction = gone > 0 ? 1 : -1;
  swings.farthest = value;
}

/** So many strokes were rocks that were meant. */
const STROKES_MEANT = 6;

/** Were there strokes enough, and at most half of them ended in a rest? */
export const wereNotHeld = (strokes: number, rests: number): boolean =>
  strokes >= STROKES_MEANT && rests <= strokes / 2;
