import type { Time, Torque } from '../../basics/quantity.ts';
import { newSieve, type Sieve } from '../sieve.ts';
import type { Top } from './breakaway.ts';
import type { Pull, PullSummary } from './pull.ts';
import type { RestSeen, RestWatch } from './restWatch.ts';
import { noTurns, type WholeTurns } from './wholeTurns.ts';

export interface TorqueSettings {
  /** Step of the gauge's display. */
  readonly resolution: Torque;
  /** Standard uncertainty of the gauge, where one is known. */
  readonly gaugeU?: Torque;
  /** Standard uncertainty as a share of the reading, for a tool whose error is stated in per cent. */
  readonly gaugeU_share?: number;
  /** Standard uncertainty of a pull scale's arm as a share of it. */
  readonly armU_share?: number;
}

/** For cues while measuring. */
export type TorqueEvent =
  | { readonly kind: 'pulling'; readonly t: Time }
  | { readonly kind: 'let-go'; readonly t: Time }
  | { readonly kind: 'turn'; readonly t: Time; readonly turns: number }
  | { readonly kind: 'again'; readonly t: Time };

/** A torque being measured; changed in place by {@link stepTorque}, and of fixed size whatever the session. */
export interface TorqueCapture {
  readonly settings: TorqueSettings;
  /** The rest the gauge is in, or, while a pull is on, how still it has been in that pull. */
  rest: RestWatch | undefined;
  /** The last rest that showed a zero. */
  lastRest: RestSeen | undefined;
  pull: Pull | undefined;
  /** Pulls that are over and showed steady turning; the last 32. */
  pulls: readonly PullSummary[];
  /** Starts of strokes that were over too soon to show what the shaft runs at; the last 32. */
  strokes: readonly Stroke[];
  /** A pull under way from the first reading, that stood as still as a rest and has just come near zero: it may have been one. */
  maybeRest: RestSeen | undefined;
  /** Pulls that are over, steady or not; which way the last of them went, and when it ended. */
  ended: number;
  lastPull: { readonly side: 1 | -1; readonly ended: number };
  readings: number;
  turns: WholeTurns;
  sieve: Sieve;
  /** Readings in a row at which the hand may have let go. */
  below: number;
  lastT: number;
  noise: number;
  spikes: number;
  gaps: number;
  /** Mean of the pull at hand after its first moments. */
  steadyMean: number;
  steadyN: number;
}

/** A stroke from a rest to letting go. */
export interface Stroke {
  readonly before: RestSeen | undefined;
  readonly top: Top | undefined;
}

export const startTorque = (settings: TorqueSettings): TorqueCapture => ({ settings, ...nothingYet(settings) });

export const nothingYet = (settings: TorqueSettings) => ({
  rest: undefined,
  lastRest: undefined,
  pull: undefined,
  pulls: [],
  strokes: [],
  maybeRest: undefined,
  ended: 0,
  lastPull: { side: 1 as const, ended: Number.NEGATIVE_INFINITY },
  readings: 0,
  turns: noTurns(),
  sieve: newSieve(settings.resolution),
  below: 0,
  lastT: Number.NaN,
  noise: 0,
  spikes: 0,
  gaps: 0,
  steadyMean: 0,
  steadyN: 0,
});

export const quiet: readonly TorqueEvent[] = Object.freeze([]);

/** A reading as it is heard. */
export interface Now {
  readonly t: number;
  readonly value: number;
  readonly angle?: number;
}
