import { closedCopy } from './runoutCapture.ts';
import { nothing, type RunoutMeasured } from './runoutMeasured.ts';
import type { RunoutCapture } from './runoutState.ts';
import { fromStations, stationsOf, unclear } from './runoutStations.ts';
import { fromTurn } from './runoutTurn.ts';

/** Works out the runout of the readings so far; the capture may take more after that. */
export function finishRunout(going: RunoutCapture): RunoutMeasured {
  const capture = closedCopy(going);
  const pauses = stationsOf(capture);
  if (typeof pauses === 'string') return nothing(pauses, []);
  if (pauses === undefined) return fromTurn(capture, []);
  return unclear(capture, pauses) ? fromTurn(capture, ['stations-unclear']) : fromStations(capture, pauses);
}
