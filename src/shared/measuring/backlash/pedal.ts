import type { Press } from '../reading.ts';
import { leaveTooth } from './listen.ts';
import { whyRefused } from './sentences.ts';
import { now, stationNumber, type BacklashCapture } from './state.ts';
import { newStation } from './station.ts';
import { closeStation, refuseUnrocked } from './stations.ts';
import { restartSwings, wereNotHeld } from './swings.ts';
import { touchedOnly } from './touches.ts';
import { restartTurns } from './turns.ts';

/** The technician's word, by pedal, key or the gauge's own button. */
export function press(capture: BacklashCapture, { pedal }: Press): void {
  if (pedal === 'again') again(capture);
  else next(capture);
}

function next(capture: BacklashCapture): void {
  leaveTooth(capture);
  const number = stationNumber(capture);
  if (capture.station !== undefined) closeStation(capture);
  else if (!closeUnrocked(capture)) capture.said.push({ kind: 'nothing-measured', station: number, t: now(capture) });
  startAfresh(capture);
}

/** Turns, touches or strokes without a whole rock: says why there is no number. */
export function closeUnrocked(capture: BacklashCapture): boolean {
  if (touchedOnly(capture.turns.touches, 0)) refuseUnrocked(capture, 'one-sided', whyRefused['one-sided']);
  else if (wereNotHeld(capture.swings.count, capture.loose.length))
    refuseUnrocked(capture, 'not-held', whyRefused['not-held']);
  else if (capture.loose.length > 3) refuseUnrocked(capture, 'not-repeatable', whyRefused['not-repeatable']);
  else return false;
  return true;
}

function startAfresh(capture: BacklashCapture): void {
  restartTurns(capture.turns);
  restartSwings(capture.swings);
  capture.loose = [];
  capture.corridor = undefined;
  capture.away = undefined;
  capture.gapBefore = false;
  capture.cued = undefined;
  capture.tiny = 0;
}

/** Forgets the station at work, or the last one if none is, and takes it anew. */
function again(capture: BacklashCapture): void {
  const { station } = capture;
  const number = station?.number ?? Math.max(1, capture.results.length);
  capture.results.length = Math.min(capture.results.length, number - 1);
  capture.station = station === undefined || capture.away !== undefined ? undefined : newStation(number);
  capture.cued = undefined;
  capture.said.push({ kind: 'taken-anew', station: number, t: now(capture) });
}
