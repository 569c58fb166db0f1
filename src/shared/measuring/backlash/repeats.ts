/**
 * Tells a gauge that sends more often than it looks. It repeats each reading a few times, so that noise seems to stand
 * still and then to jump; taken as they come, its readings count several times over. What gives it away is that a value
 * never comes just once, not even in the middle of a stroke.
 */
export interface Repeats {
  last: number;
  /** Times that the last value has come in a row. */
  run: number;
  /** Readings since one was let through. */
  since: number;
  /** Values that came and went, counted up to the number that tells; those of the shortest run and one more. */
  runs: number;
  usual: number;
  shortest: number;
  /** Each value comes at least so many times; 1 where the gauge does not repeat itself, or is not known to. */
  times: number;
}

export const newRepeats = (): Repeats => ({
  last: NaN,
  run: 0,
  since: 0,
  runs: 0,
  usual: 0,
  shortest: Infinity,
  times: 1,
});

/** So many values in a row that none came alone are no chance: a stroke passes places where the gear does not stand. */
const ENOUGH = 8;
/** Of them, this share lasted no longer than the shortest and one more; the rest came twice by chance. */
const USUAL = 0.3;
/** A gauge that looks more seldom than this (s) is not told from a gear that rests. */
const SELDOM_s = 0.35;

/** Whether a reading says something new: another value, or the same one looked at again. */
export function isFresh(repeats: Repeats, value: number, interval: number): boolean {
  repeats.since += 1;
  if (value === repeats.last) {
    repeats.run += 1;
    if (repeats.times > 1 && repeats.since <= repeats.times) return false;
  } else {
    endRun(repeats, interval);
    repeats.last = value;
    repeats.run = 1;
  }
  repeats.since = 0;
  return true;
}

function endRun(repeats: Repeats, interval: number): void {
  const { run } = repeats;
  if (run === 0) return;
  if (run < repeats.shortest) Object.assign(repeats, { shortest: run, runs: 0, usual: 0, times: 1 });
  repeats.runs += 1;
  if (run <= repeats.shortest + 1) repeats.usual += 1;
  if (repeats.shortest > 1 && repeats.runs >= ENOUGH) decide(repeats, interval);
}

function decide(repeats: Repeats, interval: number): void {
  const { runs, usual, shortest } = repeats;
  repeats.times = usual >= USUAL * runs && shortest * interval < SELDOM_s ? shortest : 1;
  // A gauge that came to be set otherwise is noticed again from here.
  Object.assign(repeats, { runs: 0, usual: 0, shortest: repeats.times > 1 ? shortest : Infinity });
}
