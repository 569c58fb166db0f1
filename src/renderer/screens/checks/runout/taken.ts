import type { RunoutResult } from '../../../../shared/job/records/measurement.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import type { Run } from '../../../live/run.ts';

/** The runout so far, once there is a number. */
export const runoutResultOf = (run: Run | undefined): RunoutResult | undefined =>
  run?.result?.kind === 'runout' && !isNone(run.result.tir_mm) ? run.result : undefined;

/** What a turn has come to once both presses are in, a number or the reason why there is none. */
export const closedResultOf = (run: Run | undefined): RunoutResult | undefined =>
  run?.result?.kind === 'runout' &&
  run.settings.kind === 'runout' &&
  run.settings.mode === 'continuous' &&
  run.presses >= 2
    ? run.result
    : undefined;

/**
 * The station that has to be read once more before a runout that was broken off goes on; undefined where it does not wait. While
 * it does, the last station of before is all that was found.
 */
export const waitsAt = (run: Run | undefined): number | undefined =>
  run !== undefined && run.before > 0 && run.found.length === 1 ? run.before : undefined;

/** How many stations the hand has stopped at. */
export const stationsTaken = (run: Run | undefined): number => {
  const last = run?.found.findLast((event) => event.kind === 'station' || event.kind === 'again');
  return last?.kind === 'station' ? last.number : 0;
};
