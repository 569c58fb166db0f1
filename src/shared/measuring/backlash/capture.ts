import { aroundTheGear } from './around.ts';
import { isPress, type Reading, type StreamItem } from '../reading.ts';
import { leaveTooth, read } from './listen.ts';
import { MOST_STEPS } from './limits.ts';
import type { BacklashEvent, BacklashMeasured, BacklashSettings } from './measured.ts';
import { closeUnrocked, press } from './pedal.ts';
import { newCapture, type BacklashCapture } from './state.ts';
import { closeStation } from './stations.ts';

export type { BacklashCapture } from './state.ts';
export type * from './measured.ts';

/*
 * Hands-free backlash: from a stream of indicator readings to a number for each station, while both hands are on gears.
 *
 * A technician sets the stem on a tooth and rocks the ring gear there and back between its two stops, resting at each.
 * One rock has two rests of its own, and their difference is the backlash. The stem is then lifted, hangs free at the
 * end of its travel, and comes down on the next tooth with another preload. Nothing marks any of this in the stream. So:
 *
 * 1. Noise (noise.ts). How much readings scatter at rest is learned from the stream: from differences at first, then from
 *    the rests themselves. Every threshold below is in these standard deviations, in steps of the display, or in shares
 *    of the stroke: nothing depends on the unit, on zero, on the sign or on the pace.
 * 2. Stills (stills.ts). A CUSUM cuts the stream into stretches that stand still. Rests are stills; so are a hanging
 *    stem, a hesitating hand and a gear that just lies there.
 * 3. Turns (turns.ts). A still at which the movement turns round is a turn. A hesitation is passed by and forgotten, a
 *    rebound is too short to stand still. A turn is certain once the stroke is half-way back, so a rock counts at once.
 * 4. Corridor (corridor.ts, landing.ts). Two strokes of one size show between which two levels this tooth moves. From
 *    then on a stroke is a whole one or none, and a reading outside means that the stem has left. When rocking begins
 *    again elsewhere, the stem either hung free in between (readings beyond both corridors), then it is the next station;
 *    or it did not, then something moved (drift) or the gauge miscounted (unit jump). The turn that the stem came down
 *    on, and the hang, are rests of no rock.
 * 5. Rocks (rocks.ts). Rests are paired two by two in the order of time; neighbours share none.
 * 6. Enough (rule.ts). All rocks count. At four, and then at 6, 8, 10, 12, their spread is held against what resolution
 *    and the noise within the rests explain. That bound is known without the rocks, honest rocks pass it at the first
 *    look nearly always, and the value has no part in it: so stopping does not pick runs that happen to be small, or to
 *    agree. What does not pass by twelve, or by the time the stem is lifted, is refused.
 * 7. Faults (faults.ts, scale.ts, swings.ts). Before a number is given the rests are asked whether both sides moved
 *    together, whether they crept, whether one side is at the end of the travel, whether only one side repeats. A station
 *    stays open until the stem leaves the tooth: what is seen until then can still take its number away.
 * 8. Doubt (doubt.ts). Resolution, gauge, hysteresis and rocks, each a named part, combined after the GUM.
 *
 * A gap ends the rest and the rock it falls into; the station is marked, or refused where the two sides do not join up.
 *
 * Everything is remembered in one BacklashCapture of fixed size (the last 256 readings, a few dozen rests). The same
 * step runs live, in replay, in the bench and on the command line. docs/measuring-backlash.md tells the same to the
 * technician, with the limits of each fault.
 */

/** Begins a session. @throws RangeError for a resolution that is not above zero: a defect of the caller. */
export const startBacklash = (settings: BacklashSettings): BacklashCapture => newCapture(settings);

const nothing: readonly BacklashEvent[] = [];

/**
 * Takes in one reading or press and tells what happened with it, mostly nothing. `capture` is changed in place.
 * A value or time that is not finite, or is no length of an indicator, is passed over.
 */
export function stepBacklash(capture: BacklashCapture, item: StreamItem): readonly BacklashEvent[] {
  if (isPress(item)) press(capture, item);
  else if (isReadable(capture, item)) read(capture, item);
  if (capture.said.length === 0) return nothing;
  const { said } = capture;
  capture.said = [];
  return said;
}

const isReadable = ({ settings }: BacklashCapture, { t, value }: Reading): boolean =>
  Math.abs(value) < MOST_STEPS * settings.resolution && Number.isFinite(t);

/** Ends the session: the station at work is closed as if the stem had been lifted. */
export function finishBacklash(capture: BacklashCapture): BacklashMeasured {
  leaveTooth(capture);
  if (capture.station === undefined) closeUnrocked(capture);
  closeStation(capture);
  return aroundTheGear(capture.results);
}

/** The whole of a recorded stream. The same code as live, so a replay cannot differ. */
export function measureBacklash(items: Iterable<StreamItem>, settings: BacklashSettings): BacklashMeasured {
  const capture = startBacklash(settings);
  for (const item of items) stepBacklash(capture, item);
  return finishBacklash(capture);
}
