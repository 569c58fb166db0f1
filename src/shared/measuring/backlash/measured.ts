import type { OrNone } from '../../basics/result.ts';
import type { Length, Time } from '../../basics/quantity.ts';
import type { UncertaintyPart } from '../uncertainty/uncertainty.ts';

/** Everything the technician or the bench says beforehand. Lengths in mm as everywhere inside. */
export interface BacklashSettings {
  /** Step of the gauge's last digit. */
  readonly resolution: Length;
  /** Standard uncertainty of the gauge, for the difference of two of its readings. */
  readonly gaugeU?: Length;
  /** Stated hysteresis: what the gauge shows differently going in and coming out, full width. */
  readonly hysteresis?: Length;
  /** What the gauge shows at the two ends of its stem's travel. */
  readonly travel?: { readonly from: Length; readonly to: Length };
  /** Stations wanted; free when absent. */
  readonly stations?: number;
  /** How the next station begins: by lifting the stem, or only by pedal, key or send button. */
  readonly nextBy: 'itself' | 'press';
}

/** Flags and reasons as docs/command-line.md lists them. */
export type Flag = Refusal | 'correlated-noise';

/** The one reason that stands in place of the number. */
export type Refusal = 'drift' | 'not-held' | 'end-of-travel' | 'one-sided' | 'not-repeatable' | 'unit-jump' | 'gap';

export interface StationMeasured {
  /** Mean of all rocks taken, none left out; or why there is no number. */
  readonly value: OrNone<Length, Refusal>;
  /** Whole rocks the value rests on (of a refused station: those seen). */
  readonly rocks: number;
  /** Standard deviation of the rocks (n − 1); 0 with fewer than two. */
  readonly sd: Length;
  /** Combined standard uncertainty; 0 where there is no value. */
  readonly u: Length;
  /** Expanded, 95 %; 0 where there is no value. */
  readonly U95: Length;
  readonly flags: readonly Flag[];
  /** Where the doubt comes from; empty where there is no value. */
  readonly parts: readonly UncertaintyPart[];
  readonly from_t: Time;
  readonly to_t: Time;
  /** One sentence for the technician, where a flag or a refusal needs one. */
  readonly why?: string;
}

export interface BacklashMeasured {
  readonly stations: readonly StationMeasured[];
  readonly mean: OrNone<Length, 'nothing-measured'>;
  /** Expanded, 95 %, of the mean of these stations. */
  readonly meanU95: OrNone<Length, 'nothing-measured'>;
  readonly min: OrNone<Length, 'nothing-measured'>;
  readonly max: OrNone<Length, 'nothing-measured'>;
  /** Largest minus smallest; needs two stations with a value. */
  readonly variation: OrNone<Length, 'nothing-measured' | 'one-station'>;
  /** Expanded, 95 %; the choice of the two ends is counted. */
  readonly variationU95: OrNone<Length, 'nothing-measured' | 'one-station'>;
}

export type Side = 'low' | 'high';

/** What happened just now: drives sound and picture. Stations are counted from 1. */
export type BacklashEvent =
  | {
      readonly kind: 'rest-found';
      readonly station: number;
      readonly t: Time;
      readonly side: Side;
      readonly level: Length;
      readonly readings: number;
    }
  | {
      readonly kind: 'rock-counted';
      readonly station: number;
      readonly t: Time;
      readonly rocks: number;
      readonly value: Length;
      readonly mean: Length;
    }
  | { readonly kind: 'station-done'; readonly station: number; readonly t: Time; readonly measured: StationMeasured }
  | {
      readonly kind: 'station-refused';
      readonly station: number;
      readonly t: Time;
      readonly reason: Refusal;
      readonly measured: StationMeasured;
    }
  | { readonly kind: 'lifted'; readonly station: number; readonly t: Time }
  | { readonly kind: 'landed'; readonly station: number; readonly t: Time }
  | { readonly kind: 'gap'; readonly station: number; readonly t: Time; readonly lasted: Time }
  | { readonly kind: 'taken-anew'; readonly station: number; readonly t: Time }
  /** A press of `next` where nothing had been rocked: no station is made of it. */
  | { readonly kind: 'nothing-measured'; readonly station: number; readonly t: Time }
  /** Every station wanted has a number; what comes after is not looked at. */
  | { readonly kind: 'all-done'; readonly station: number; readonly t: Time };
