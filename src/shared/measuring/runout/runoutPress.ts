import { seconds } from '../../basics/quantity.ts';
import { leavePause, type Pause, pauseNow } from './pauses.ts';
import type { Press } from '../reading.ts';
import {
  forget,
  mostStations,
  quiet,
  type RunoutCapture,
  type RunoutEvent,
  stationFound,
  turnDone,
} from './runoutState.ts';

/** One press: a station read, the begin or the end of a turn, or everything anew. */
export function press(capture: RunoutCapture, { t, pedal }: Press): readonly RunoutEvent[] {
  if (pedal === 'again') return again(capture, t);
  const stations =
    capture.settings.mode === 'stations' || (capture.settings.mode === 'auto' && capture.markTimes.length >= 2);
  const mark = markTurn(capture, t);
  const station = pressStation(capture, t);
  if (!stations) return mark;
  return station === undefined ? quiet : [stationFound(station, capture.pressed.length)];
}

/** Everything from the first press on belongs to the turn; each further press ends one. */
function markTurn(capture: RunoutCapture, t: number): readonly RunoutEvent[] {
  capture.markTimes = [...capture.markTimes, t];
  return capture.markTimes.length === 1 ? quiet : [turnDone(capture, t)];
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
  forget(capture);
  capture.leapt = 0;
  return [{ kind: 'again', t: seconds(t) }];
}
