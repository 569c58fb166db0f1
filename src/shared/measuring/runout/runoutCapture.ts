import { type Length, mm, seconds } from '../../basics/quantity.ts';
import { leaps } from './leap.ts';
import { copyOfFinder, leavePause, pauseNow, stepPauses } from './pauses.ts';
import { isPress, type StreamItem } from '../reading.ts';
import { takeAngle } from './runoutAround.ts';
import { press } from './runoutPress.ts';
import {
  forget,
  keepPause,
  quiet,
  type RunoutCapture,
  type RunoutEvent,
  stationFound,
  turnDone,
} from './runoutState.ts';
import { addToTrace, copyOfTrace } from './trace.ts';
import { lastOfSieve, neighbours_s, noiseOf, sift } from '../sieve.ts';

/** Takes one reading or press; the events are for cues. */
export function stepRunout(capture: RunoutCapture, item: StreamItem): readonly RunoutEvent[] {
  if (isPress(item)) {
    // The reading that waits to prove itself was taken before the press.
    if (item.pedal === 'next' && lastOfSieve(capture.sieve)) take(capture);
    return press(capture, item);
  }
  const { t, value, angle = Number.NaN } = item;
  if (capture.left) return quiet;
  const lone = settleSingle(capture, t, value, angle);
  const passed = sift(capture.sieve, t, value, angle) ? take(capture) : quiet;
  return lone === undefined ? passed : [lone, ...passed];
}

/**
 * Put down or lifted while nothing is counted yet, the stem comes to the gear only now, and what it read in the air is
 * forgotten. Soon after the first press it is still coming down, and the turn begins when it stands. After that it has
 * left the gear, and what was counted stands.
 */
function leapt(capture: RunoutCapture, t: number): readonly RunoutEvent[] {
  if (stillLanding(capture, t)) {
    capture.leapt += 1;
    lay(capture);
    return quiet;
  }
  if (countsAlready(capture)) {
    capture.left = true;
    return quiet;
  }
  // The reading that shows the leap is itself one that passed.
  const seen = capture.sieve.passed > 1 || capture.pressed.length > 0;
  capture.leapt += 1;
  forget(capture);
  return seen ? [{ kind: 'again', t: seconds(t) }] : quiet;
}

const landing_s = 2;

const stillLanding = ({ markTimes, pauses }: RunoutCapture, t: number): boolean =>
  markTimes.length === 1 && pauses.length < 3 && t - (markTimes[0] ?? t) < landing_s;

const countsAlready = ({ settings, markTimes, pauses, pressed }: RunoutCapture): boolean =>
  (settings.mode !== 'stations' && markTimes.length > 0) || Math.max(pauses.length, pressed.length) >= 3;

/** Lays the reading that has just proved itself into the ride; true when it completes a turn. */
function lay(capture: RunoutCapture): boolean {
  const { t, value, angle } = capture.sieve;
  const turned = angle === angle && takeAngle(capture, angle);
  addToTrace(capture.trace, { t, value, travel: angle === angle ? capture.travel : angle });
  return turned;
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
    trace: copyOfTrace(capture.trace),
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
  capture.stem = value;
  if (leaps(capture.leap, t, value) && !sieve.unitJump) return leapt(capture, t);
  if (value < capture.low) capture.low = value;
  if (value > capture.high) capture.high = value;
  const events = lay(capture) ? [turnDone(capture, t)] : quiet;
  if (capture.settings.mode === 'continuous') return events;
  const news = stepPauses(finder, t, value, capture.travel, noiseOf(sieve));
  if (news === undefined) return events;
  return [...events, ...pauseNews(capture, news)];
}

function pauseNews(capture: RunoutCapture, news: 'begun' | 'ended'): readonly RunoutEvent[] {
  const pause = pauseNow(capture.finder);
  if (news === 'begun') {
    capture.lowBetween = capture.low;
    capture.highBetween = capture.high;
    // Once stations are pressed, the presses count them.
    if (pause === undefined || capture.pressed.length > 0) return quiet;
    return [stationFound(pause, capture.pauses.length + 1)];
  }
  if (pause !== undefined) keepPause(capture, pause);
  leavePause(capture.finder);
  return quiet;
}

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
