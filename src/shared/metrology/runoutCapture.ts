import { type Angle, type Length, mm, radians, seconds, type Time } from '../quantities/quantity.ts';
import { wrapped } from './harmonics.ts';
import {
  copyOfFinder,
  leavePause,
  newPauseFinder,
  type Pause,
  type PauseFinder,
  pauseNow,
  stepPauses,
} from './pauses.ts';
import { addAtAngle, addInOrder, copyOf, orderedProfile, type Profile, roundProfile } from './profile.ts';
import { isPress, type Press, type StreamItem } from './reading.ts';
import { lastOfSieve, neighbours_s, newSieve, noiseOf, type Sieve, sift } from './sieve.ts';
import { addTo, type Moments, noMoments } from './statistics.ts';

/**
 * How runout is taken: `continuous`, one turn without a stop; `stations`, where the hand pauses or the technician
 * presses; `auto`, whichever the readings turn out to be.
 */
export interface RunoutSettings {
  /** Step of the gauge's display. */
  readonly resolution: Length;
  /** The gauge's standard uncertainty over the travel used, where one is known. */
  readonly gaugeU?: Length;
  /** Stated width between going in and coming out. A high spot is met going in and a low one coming out, so all of it counts. */
  readonly hysteresis?: Length;
  readonly mode: 'continuous' | 'stations' | 'auto';
  /** How many stations there are, equally spaced; tells their places where no angle is measured. */
  readonly stations?: number;
}

/** For cues while measuring. */
export type RunoutEvent =
  | {
      readonly kind: 'station';
      readonly t: Time;
      readonly number: number;
      readonly value: Length;
      readonly angle?: Angle;
    }
  | { readonly kind: 'turn'; readonly t: Time; readonly turns: number }
  | { readonly kind: 'again'; readonly t: Time };

/**
 * A runout being measured. It is changed in place by {@link stepRunout} and keeps a fixed number of bins, never the
 * readings. Read it through {@link runoutSoFar} and finishRunout only.
 */
export interface RunoutCapture {
  readonly settings: RunoutSettings;
  sieve: Sieve;
  finder: PauseFinder;
  /** Readings by their angle; absent until one brings an angle. */
  round: Profile | undefined;
  inOrder: Profile;
  /** What the marks enclosed so far: whole turns. */
  marked: Profile | undefined;
  marks: number;
  firstMark: number;
  lastMark: number;
  /** Angle without its jump at a full turn, and the range it went through. */
  travel: number;
  travelLow: number;
  travelHigh: number;
  /** First visit of each half degree: travel and value, to see whether it reads the same a turn later. */
  readonly visited: Float64Array;
  readonly visitedValue: Float64Array;
  closing: Moments;
  pauses: readonly Pause[];
  pressed: readonly Pause[];
  single: Pause | undefined;
  lastT: number;
  low: number;
  high: number;
}

/** More stations than this are a continuous turn with a nervous hand. */
export const mostStations = 64;
const visitBins = 720;

export const startRunout = (settings: RunoutSettings): RunoutCapture => ({
  settings,
  ...nothingYet(settings),
  visited: new Float64Array(visitBins).fill(Number.NaN),
  visitedValue: new Float64Array(visitBins),
});

const nothingYet = (settings: RunoutSettings) => ({
  sieve: newSieve(settings.resolution),
  finder: newPauseFinder(settings.resolution),
  round: undefined,
  inOrder: orderedProfile(),
  marked: undefined,
  marks: 0,
  firstMark: Number.NaN,
  lastMark: Number.NaN,
  travel: Number.NaN,
  travelLow: Infinity,
  travelHigh: -Infinity,
  closing: noMoments(),
  pauses: [],
  pressed: [],
  single: undefined,
  lastT: -Infinity,
  low: Infinity,
  high: -Infinity,
});

const quiet: readonly RunoutEvent[] = Object.freeze([]);

/** Takes one reading or press; the events are for cues. */
export function stepRunout(capture: RunoutCapture, item: StreamItem): readonly RunoutEvent[] {
  if (isPress(item)) return press(capture, item);
  const { t, value, angle = Number.NaN } = item;
  const lone = settleSingle(capture, t, value, angle);
  const passed = sift(capture.sieve, t, value, angle) ? take(capture) : quiet;
  return lone === undefined ? passed : [lone, ...passed];
}

/** Range of the readings so far, for the live display; undefined before the first has proved itself. */
export const runoutSoFar = ({
  low,
  high,
}: RunoutCapture): { readonly low: Length; readonly high: Length } | undefined =>
  high >= low ? { low: mm(low), high: mm(high) } : undefined;

/**
 * A copy of the capture in which the last reading and the pause at hand are counted too. The capture itself goes on
 * as before, so that a result can be asked for while it still takes readings.
 */
export function closedCopy(capture: RunoutCapture): RunoutCapture {
  const copy: RunoutCapture = {
    ...capture,
    sieve: { ...capture.sieve },
    finder: copyOfFinder(capture.finder),
    round: capture.round === undefined ? undefined : copyOf(capture.round),
    inOrder: copyOf(capture.inOrder),
    closing: { ...capture.closing },
    visited: capture.visited.slice(),
    visitedValue: capture.visitedValue.slice(),
  };
  settleSingle(copy, Infinity, Number.NaN, Number.NaN);
  if (lastOfSieve(copy.sieve)) take(copy);
  const now = pauseNow(copy.finder);
  if (now !== undefined) keepPause(copy, now);
  return copy;
}

function take(capture: RunoutCapture): readonly RunoutEvent[] {
  const { sieve, finder } = capture;
  const { t, value } = sieve;
  if (value < capture.low) capture.low = value;
  if (value > capture.high) capture.high = value;
  addInOrder(capture.inOrder, value);
  const turned = sieve.angle === sieve.angle ? takeAngle(capture, sieve.angle, value) : false;
  const events = turned ? [turnDone(capture, t)] : quiet;
  if (capture.settings.mode === 'continuous') return events;
  const news = stepPauses(finder, t, value, capture.travel, noiseOf(sieve));
  if (news === undefined) return events;
  return [...events, ...pauseNews(capture, news)];
}

/** Lays a reading at its angle; true when this completes a turn. */
function takeAngle(capture: RunoutCapture, angle: number, value: number): boolean {
  const before = capture.travel;
  capture.travel = before === before ? before + nearestWay(angle - before) : angle;
  const wholeBefore = capture.travelHigh - capture.travelLow >= 2 * Math.PI;
  capture.travelLow = Math.min(capture.travelLow, capture.travel);
  capture.travelHigh = Math.max(capture.travelHigh, capture.travel);
  capture.round ??= roundProfile();
  addAtAngle(capture.round, angle, value);
  visit(capture, angle, value);
  return !wholeBefore && capture.travelHigh - capture.travelLow >= 2 * Math.PI;
}

/** The same half degree a turn later must read the same: what it does not is the base or the gear having moved. */
function visit(capture: RunoutCapture, angle: number, value: number): void {
  const bin = Math.floor((wrapped(angle) * visitBins) / (2 * Math.PI)) % visitBins;
  const first = capture.visited[bin] ?? Number.NaN;
  if (first !== first) {
    capture.visited[bin] = capture.travel;
    capture.visitedValue[bin] = value;
  } else if (Math.abs(capture.travel - first) > Math.PI) {
    addTo(capture.closing, value - (capture.visitedValue[bin] ?? 0));
  }
}

const nearestWay = (angle: number): number => wrapped(angle + Math.PI) - Math.PI;

const turnDone = (capture: RunoutCapture, t: number): RunoutEvent => ({
  kind: 'turn',
  t: seconds(t),
  turns: Math.max(1, capture.marks - 1),
});

function pauseNews(capture: RunoutCapture, news: 'begun' | 'ended'): readonly RunoutEvent[] {
  const pause = pauseNow(capture.finder);
  if (news === 'begun') {
    return pause === undefined ? quiet : [stationFound(pause, capture.pauses.length + 1)];
  }
  if (pause !== undefined) keepPause(capture, pause);
  leavePause(capture.finder);
  return quiet;
}

function keepPause(capture: RunoutCapture, pause: Pause): void {
  if (capture.pauses.length <= mostStations) capture.pauses = [...capture.pauses, pause];
}

const stationFound = (pause: Pause, number: number): RunoutEvent => ({
  kind: 'station',
  t: seconds(pause.t),
  number,
  value: mm(pause.value),
  ...(pause.angle === undefined ? {} : { angle: radians(wrapped(pause.angle)) }),
});

/**
 * A reading with nothing within half a second before or after it was sent by a button: it is a station of its own.
 * Returns the event for the one before, once this reading shows that it stood alone.
 */
function settleSingle(capture: RunoutCapture, t: number, value: number, angle: number): RunoutEvent | undefined {
  const alone = t - capture.lastT > neighbours_s;
  const { single } = capture;
  capture.lastT = t;
  capture.single = alone ? { t, value, sd: 0, n: 1, ...(angle === angle ? { angle } : {}) } : undefined;
  if (single === undefined || !alone || capture.settings.mode === 'continuous') return undefined;
  keepPause(capture, single);
  return stationFound(single, capture.pauses.length);
}

function press(capture: RunoutCapture, { t, pedal }: Press): readonly RunoutEvent[] {
  if (pedal === 'again') return again(capture, t);
  // The reading that waits to prove itself was taken before the press.
  if (lastOfSieve(capture.sieve)) take(capture);
  const stations = capture.settings.mode === 'stations' || (capture.settings.mode === 'auto' && capture.marks >= 2);
  const mark = markTurn(capture, t);
  const station = pressStation(capture, t);
  if (!stations) return mark;
  return station === undefined ? quiet : [stationFound(station, capture.pressed.length)];
}

/** Everything from the first press on belongs to the turn; each further press ends one. */
function markTurn(capture: RunoutCapture, t: number): readonly RunoutEvent[] {
  capture.marks += 1;
  const now = capture.sieve.value;
  if (capture.marks === 1) {
    capture.inOrder = orderedProfile();
    capture.firstMark = now;
    return quiet;
  }
  capture.marked = copyOf(capture.inOrder);
  capture.lastMark = now;
  return [turnDone(capture, t)];
}

function pressStation(capture: RunoutCapture, t: number): Pause | undefined {
  const pause = pauseNow(capture.finder) ?? latest(capture, t);
  if (pause === undefined || capture.pressed.length > mostStations) return undefined;
  capture.pressed = [...capture.pressed, pause];
  leavePause(capture.finder);
  return pause;
}

/** The reading at the moment of the press, when the hand was not seen to rest. */
function latest({ sieve, travel }: RunoutCapture, t: number): Pause | undefined {
  if (sieve.passed === 0) return undefined;
  return { t, value: sieve.value, sd: 0, n: 1, ...(travel === travel ? { angle: travel } : {}) };
}

function again(capture: RunoutCapture, t: number): readonly RunoutEvent[] {
  Object.assign(capture, nothingYet(capture.settings));
  capture.visited.fill(Number.NaN);
  return [{ kind: 'again', t: seconds(t) }];
}
