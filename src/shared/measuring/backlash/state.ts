import { mm, type Time } from '../../basics/quantity.ts';
import type { Reading } from '../reading.ts';
import { isNone } from '../../basics/result.ts';
import { type Corridor, widthOf } from './corridor.ts';
import { leastStroke } from './limits.ts';
import type { BacklashEvent, BacklashSettings, Side, StationMeasured } from './measured.ts';
import { newNoise, noiseOf, roundingOf, type Noise } from './noise.ts';
import type { Station } from './station.ts';
import { newRepeats, type Repeats } from './repeats.ts';
import { newShownStep, type ShownStep, stepOf } from './shownStep.ts';
import { newStillFinder, type StillFinder } from './stills.ts';
import { newSwings, type Swings } from './swings.ts';
import { newWild, type Wild } from './wild.ts';
import { newTurnFinder, type Turn, type TurnFinder } from './turns.ts';

/** What the readings did since the stem left its corridor, or since the stream broke off. */
export interface Away {
  readonly because: 'outside' | 'gap';
  readonly corridor: Readonly<Corridor>;
  /** The last reading before and the first one after. */
  readonly from: number;
  readonly to: number;
  lowest: number;
  highest: number;
}

/**
 * Everything remembered between two readings. It is changed in place and does not grow with the readings: only
 * `results` does, by one small record a station.
 */
export interface BacklashCapture {
  readonly settings: BacklashSettings;
  readonly noise: Noise;
  readonly shownStep: ShownStep;
  readonly stills: StillFinder;
  readonly turns: TurnFinder;
  readonly results: StationMeasured[];
  /** The first readings, held back until they tell how noisy they are; undefined once they have. */
  held: Reading[] | undefined;
  /** Turns of which it is not known whether they are rests: before there is a corridor, and those too small for it. */
  loose: Turn[];
  readonly repeats: Repeats;
  /** The reading that leapt away and waits for the next. */
  wild: Wild;
  station: Station | undefined;
  corridor: Corridor | undefined;
  away: Away | undefined;
  /** Readings were missing since the stem came down on the tooth that has no station yet. */
  gapBefore: boolean;
  /** Where the stem hangs free, once it has been seen to. */
  hangs: number | undefined;
  /** Rest already told of while it is still held. */
  cued: Side | undefined;
  /** Strokes, held or not, since the stem was last set down. */
  readonly swings: Swings;
  /** Strokes in a row that are one 25th of the corridor. */
  tiny: number;
  last: number;
  last_t: number;
  /** Usual time between two readings; 0 while unknown. */
  interval: number;
  said: BacklashEvent[];
}

export function newCapture(settings: BacklashSettings): BacklashCapture {
  if (!(settings.resolution > 0 && settings.resolution < Infinity)) {
    throw new RangeError(`A gauge's resolution is above zero, not ${settings.resolution}`);
  }
  return {
    settings,
    noise: newNoise(settings.resolution),
    shownStep: newShownStep(settings.resolution),
    stills: newStillFinder(roundingOf(settings.resolution)),
    turns: newTurnFinder(),
    results: [],
    held: [],
    loose: [],
    repeats: newRepeats(),
    wild: newWild(),
    station: undefined,
    corridor: undefined,
    away: undefined,
    gapBefore: false,
    hangs: undefined,
    cued: undefined,
    swings: newSwings(),
    tiny: 0,
    last: 0,
    last_t: -Infinity,
    interval: 0,
    said: [],
  };
}

/** The number of the station at work, or of the next one. */
export const stationNumber = (capture: BacklashCapture): number =>
  capture.station?.number ?? capture.results.length + 1;

export const now = (capture: BacklashCapture): Time => capture.last_t as Time;

/** The gauge as it was entered, but for a display that has shown to be coarser than that. */
export function settingsSeen({ settings, shownStep }: BacklashCapture): BacklashSettings {
  const resolution = stepOf(shownStep);
  return resolution === settings.resolution ? settings : { ...settings, resolution: mm(resolution) };
}

/** The smallest stroke that counts now, mm. */
export const leastStrokeNow = (capture: BacklashCapture): number =>
  leastStroke(noiseOf(capture.noise), capture.settings.resolution, widthKnown(capture));

function widthKnown({ corridor, away, results }: BacklashCapture): number | undefined {
  const known = corridor ?? away?.corridor;
  if (known !== undefined) return widthOf(known);
  const value = results.findLast((result) => !isNone(result.value))?.value;
  return value === undefined || isNone(value) ? undefined : value;
}
