import { type Angle, type Length, mm, radians, seconds, type Time } from '../../basics/quantity.ts';
import { wrapped } from '../../basics/harmonics.ts';
import { type LeapWatch, newLeapWatch } from './leap.ts';
import { newPauseFinder, type Pause, type PauseFinder } from './pauses.ts';
import { newTrace, type Trace } from './trace.ts';
import { newSieve, type Sieve } from '../sieve.ts';

/**
 * How runout is taken: `continuous`, one turn without a stop; `stations`, where the hand pauses or the technician
 * presses; `auto`, whichever the readings turn out to be.
 */
export interface RunoutSettings {
  /** Step of the gauge's display. */
  readonly resolution: Length;
  /** The gauge's standard uncertainty over the travel used, where one is known. */
  readonly gaugeU?: Length;
  /** Stated width between going in and coming out. A high spot is met going in and a low one coming out, so all of it counts. */
  readonly hysteresis?: Length;
  readonly mode: 'continuous' | 'stations' | 'auto';
  /** How many stations there are, equally spaced; tells their places where no angle is measured. */
  readonly stations?: number;
}

/** For cues while measuring. */
export type RunoutEvent =
  | {
      readonly kind: 'station';
      readonly t: Time;
      readonly number: number;
      readonly value: Length;
      readonly angle?: Angle;
    }
  | { readonly kind: 'turn'; readonly t: Time; readonly turns: number }
  | { readonly kind: 'again'; readonly t: Time };

/**
 * A runout being measured. It is changed in place by {@link stepRunout} and keeps a bounded number of points, however
 * long the ride. Read it through {@link runoutSoFar} and finishRunout only.
 */
export interface RunoutCapture {
  readonly settings: RunoutSettings;
  sieve: Sieve;
  finder: PauseFinder;
  /** Everything ridden over since the stem was put down. */
  trace: Trace;
  /** When the pedal was pressed for `next`: begin and end of a turn, or stations. */
  markTimes: readonly number[];
  /** Angle without its jump at a full turn, and the range it went through. */
  travel: number;
  travelLow: number;
  travelHigh: number;
  pauses: readonly Pause[];
  pressed: readonly Pause[];
  single: Pause | undefined;
  lastT: number;
  low: number;
  high: number;
  /** Lowest and highest up to the last station: what came between them. */
  lowBetween: number;
  highBetween: number;
  leap: LeapWatch;
  /** The stem's last reading that proved itself, on the gear or in the air. What is forgotten leaves it alone. */
  stem: number;
  /** Times the stem was put down or lifted while nothing was counted yet. */
  leapt: number;
  /** The stem left the gear after something was counted: nothing read since belongs to it. */
  left: boolean;
}

/** More stations than this are a continuous turn with a nervous hand. */
export const mostStations = 64;

export const startRunout = (settings: RunoutSettings): RunoutCapture => ({
  settings,
  ...nothingYet(settings),
  leap: newLeapWatch(),
  stem: Number.NaN,
  leapt: 0,
});

const nothingYet = (settings: RunoutSettings) => ({
  sieve: newSieve(settings.resolution),
  finder: newPauseFinder(settings.resolution),
  trace: newTrace(),
  markTimes: [],
  travel: Number.NaN,
  travelLow: Infinity,
  travelHigh: -Infinity,
  pauses: [],
  pressed: [],
  single: undefined,
  lastT: -Infinity,
  low: Infinity,
  high: -Infinity,
  lowBetween: Infinity,
  highBetween: -Infinity,
  left: false,
});

export const quiet: readonly RunoutEvent[] = Object.freeze([]);

export const turnDone = (capture: RunoutCapture, t: number): RunoutEvent => ({
  kind: 'turn',
  t: seconds(t),
  turns: Math.max(1, capture.markTimes.length - 1),
});

export function keepPause(capture: RunoutCapture, pause: Pause): void {
  if (capture.pauses.length <= mostStations) capture.pauses = [...capture.pauses, pause];
}

export const stationFound = (pause: Pause, number: number): RunoutEvent => ({
  kind: 'station',
  t: seconds(pause.t),
  number,
  value: mm(pause.value),
  ...(pause.angle === undefined ? {} : { angle: radians(wrapped(pause.angle)) }),
});

/** Begins anew, as after a press of `again`. */
export function forget(capture: RunoutCapture): void {
  Object.assign(capture, nothingYet(capture.settings));
}

/** Whether the angle of the gear is measured. */
export const isPlaced = ({ travel }: RunoutCapture): boolean => travel === travel;
