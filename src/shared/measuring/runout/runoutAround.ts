import { wrapped } from '../../basics/harmonics.ts';
import type { RunoutCapture } from './runoutState.ts';

const turn = 2 * Math.PI;

/** Follows the gear's angle without its jump at a full turn; true when this reading completes a turn. */
export function takeAngle(capture: RunoutCapture, angle: number): boolean {
  const before = capture.travel;
  capture.travel = before === before ? before + nearestWay(angle - before) : angle;
  const wholeBefore = capture.travelHigh - capture.travelLow >= turn;
  capture.travelLow = Math.min(capture.travelLow, capture.travel);
  capture.travelHigh = Math.max(capture.travelHigh, capture.travel);
  return !wholeBefore && capture.travelHigh - capture.travelLow >= turn;
}

const nearestWay = (angle: number): number => wrapped(angle + Math.PI) - Math.PI;
