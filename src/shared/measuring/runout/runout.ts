/**
 * Runout, live: `startRunout`, `stepRunout` for every reading and press, `finishRunout` for the result; the same code
 * while measuring, in replay and on the command line.
 */
export { runoutSoFar, stepRunout } from './runoutCapture.ts';
export { startRunout } from './runoutState.ts';
export type { RunoutCapture, RunoutEvent, RunoutSettings } from './runoutState.ts';
export { lastStation, runoutInParts } from './inParts.ts';
export { finishRunout } from './runoutResult.ts';
export type { HarmonicMeasured, NoRunout, RunoutFlag, RunoutMeasured, StationMeasured } from './runoutMeasured.ts';
export type { RunoutShape } from './runoutShape.ts';
