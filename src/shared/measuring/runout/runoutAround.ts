import { wrapped } from '../../basics/harmonics.ts';
import { addAtAngle, roundProfile } from './profile.ts';
import { type RunoutCapture, visitBins } from './runoutState.ts';
import { addTo } from '../../basics/statistics.ts';

/** Lays a reading at its angle; true when this completes a turn. */
export function takeAngle(capture: RunoutCapture, angle: number, value: number): boolean {
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
