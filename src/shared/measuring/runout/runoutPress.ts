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

/**
 * One press: a station read, the begin or the end of a turn, or everything anew. A station pressed before anything was
 * read is not counted: the place would have no reading, and the numbers would run apart.
 */
export function press(capture: RunoutCapture, { t, pedal }: Press): readonly RunoutEvent[] {
  if (pedal === 'again') return again(capture, t);
  const stations =
    capture.settings.mode === 'stations' || (capture.settings.mode === 'auto' && capture.markTimes.length >= 2);
  if (capture.settings.mode === 'stations' && !hasRead(capture)) return quiet;
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

/**
 * The reading at the moment of the press, when the hand was not seen to rest. A stem that has only just come down has
 * nothing behind it but that reading.
 */
function latest(capture: RunoutCapture, t: number): Pause | undefined {
  const { stem, travel } = capture;
  if (!hasRead(capture)) return undefined;
  return { t, value: stem, sd: 0, n: 1, ...(travel === travel ? { angle: travel } : {}) };
}

const hasRead = ({ stem }: RunoutCapture): boolean => stem === stem;

function again(capture: RunoutCapture, t: number): readonly RunoutEvent[] {
  forget(capture);
  capture.leapt = 0;
  return [{ kind: 'again', t: seconds(t) }];
}
