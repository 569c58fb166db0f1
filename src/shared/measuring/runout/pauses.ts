import { addTo, type Moments, noMoments, sdOf } from '../../basics/statistics.ts';

/** A place where the hand stood still. */
export interface Pause {
  readonly t: number;
  readonly value: number;
  /** Standard deviation of the readings in it, and how many. */
  readonly sd: number;
  readonly n: number;
  /** Sum of the squared steps from reading to reading, where they were looked at: small beside the spread, the noise wanders. */
  readonly steps?: number;
  /** Mean angle, where one was measured. */
  readonly angle?: number;
}

/**
 * Finds the pauses of a hand that turns a gear from station to station. Where the angle is measured, standing still is
 * standing still; without it a pause shows only as readings that keep their value, so that two stations of the same
 * height with nothing between them look like one. Memory: the last 128 readings.
 */
export interface PauseFinder {
  readonly resolution: number;
  readonly times: Float64Array;
  readonly values: Float64Array;
  readonly angles: Float64Array;
  seen: number;
  /** Since when this window counts: readings before it belong to an earlier rest. */
  from: number;
  resting: boolean;
  rest: Moments;
  restAngle: Moments;
  began: number;
  last: number;
  outside: number;
  announced: boolean;
}

const kept = 128;
const fewest = 5;
const shortest_s = 0.3;
/** Half a degree of wander is a hand at rest; further than that it has gone on. */
const stillAngle = 0.009;

export const newPauseFinder = (resolution: number): PauseFinder => ({
  resolution,
  times: new Float64Array(kept),
  values: new Float64Array(kept),
  angles: new Float64Array(kept),
  seen: 0,
  from: 0,
  resting: false,
  rest: noMoments(),
  restAngle: noMoments(),
  began: 0,
  last: 0,
  outside: 0,
  announced: false,
});

/** A copy that further readings do not change. */
export const copyOfFinder = (finder: PauseFinder): PauseFinder => ({
  ...finder,
  times: finder.times.slice(),
  values: finder.values.slice(),
  angles: finder.angles.slice(),
  rest: { ...finder.rest },
  restAngle: { ...finder.restAngle },
});

/** What one reading brought: a pause long enough to count has begun, or the one at hand has ended. */
type PauseNews = 'begun' | 'ended' | undefined;

/** `noise`: standard deviation of one reading; `angle`: NaN where none is measured. */
export function stepPauses(finder: PauseFinder, t: number, value: number, angle: number, noise: number): PauseNews {
  const slot = finder.seen % kept;
  finder.times[slot] = t;
  finder.values[slot] = value;
  finder.angles[slot] = angle;
  finder.seen += 1;
  return finder.resting ? stay(finder, t, value, angle, noise) : settle(finder, noise);
}

/** The pause at hand, if the hand stands still now and has for long enough. */
export function pauseNow(finder: PauseFinder): Pause | undefined {
  const { resting, rest, restAngle, began, last } = finder;
  if (!resting || rest.n < fewest || last - began < shortest_s) return undefined;
  const angle = restAngle.n > 0 ? { angle: restAngle.mean } : {};
  return { t: began, value: rest.mean, sd: sdOf(rest), n: rest.n, ...angle };
}

/** Forgets the pause at hand, after it has been taken down. */
export function leavePause(finder: PauseFinder): void {
  finder.resting = false;
  finder.from = finder.seen;
  finder.announced = false;
}

function stay(finder: PauseFinder, t: number, value: number, angle: number, noise: number): PauseNews {
  if (hasLeft(finder, value, angle, noise)) {
    finder.outside += 1;
    // One reading outside is a knock; two are the hand on its way.
    return finder.outside >= 2 ? 'ended' : undefined;
  }
  finder.outside = 0;
  finder.last = t;
  addTo(finder.rest, value);
  if (angle === angle) addTo(finder.restAngle, angle);
  if (finder.announced || pauseNow(finder) === undefined) return undefined;
  finder.announced = true;
  return 'begun';
}

const hasLeft = (finder: PauseFinder, value: number, angle: number, noise: number): boolean =>
  angle === angle
    ? Math.abs(angle - finder.restAngle.mean) > stillAngle
    : Math.abs(value - finder.rest.mean) > Math.max(1.6 * finder.resolution, 4 * noise);

/** Looks whether the last readings, five of them and 0.3 s at least, stand still. */
function settle(finder: PauseFinder, noise: number): PauseNews {
  const window = lastReadings(finder);
  if (window === undefined || !isStill(finder, window, noise)) return undefined;
  finder.resting = true;
  finder.rest = noMoments();
  finder.restAngle = noMoments();
  finder.outside = 0;
  finder.began = finder.times[window.first % kept] ?? 0;
  finder.last = finder.times[(finder.seen - 1) % kept] ?? 0;
  for (let index = window.first; index < finder.seen; index += 1) {
    addTo(finder.rest, finder.values[index % kept] ?? 0);
    const angle = finder.angles[index % kept] ?? Number.NaN;
    if (angle === angle) addTo(finder.restAngle, angle);
  }
  finder.announced = pauseNow(finder) !== undefined;
  return finder.announced ? 'begun' : undefined;
}

interface Window {
  readonly first: number;
  readonly n: number;
}

function lastReadings({ seen, from, times }: PauseFinder): Window | undefined {
  const now = times[(seen - 1) % kept] ?? 0;
  const earliest = Math.max(from, seen - kept);
  let first = seen - fewest;
  while (first >= earliest && now - (times[first % kept] ?? 0) < shortest_s) first -= 1;
  return first >= earliest ? { first, n: seen - first } : undefined;
}

function isStill(finder: PauseFinder, { first, n }: Window, noise: number): boolean {
  const { angles, values, seen, resolution } = finder;
  let [early, late, low, high, lowAngle, highAngle] = [0, 0, Infinity, -Infinity, Infinity, -Infinity];
  const middle = first + n / 2;
  for (let index = first; index < seen; index += 1) {
    const value = values[index % kept] ?? 0;
    const angle = angles[index % kept] ?? Number.NaN;
    if (index < middle) early += value;
    else late += value;
    low = Math.min(low, value);
    high = Math.max(high, value);
    lowAngle = Math.min(lowAngle, angle);
    highAngle = Math.max(highAngle, angle);
  }
  if (lowAngle === lowAngle) return highAngle - lowAngle < stillAngle;
  const halves = Math.abs(early / Math.ceil(n / 2) - late / Math.floor(n / 2));
  return high - low <= 1.1 * resolution + 6 * noise && halves <= 0.6 * resolution + (3 * noise) / Math.sqrt(n / 2);
}
