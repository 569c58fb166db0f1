import type { PlanInput, TrialSeen } from '../../../src/shared/axle/plan/input.ts';

/** Movements since the first trial (mm). */
export interface Stood {
  readonly pinionOut: number;
  readonly ringAway: number;
}

/** What only the truth knows of a place. */
export interface Truth {
  readonly crown: number;
  readonly heel: number;
  /** Mean over the stations (mm); below 0 where gears are pressed together. */
  readonly backlash: number;
  /** Smallest to largest station (mm). */
  readonly variation: number;
}

/** An axle on the stand: what may be asked of it, and what only its truth knows. */
export interface Subject {
  readonly ask: (trials: readonly TrialSeen[]) => PlanInput;
  /** Puts it together and reads it, reading errors and all; the same chance for whoever stands there as `trial`. */
  readonly tryAt: (place: Stood, trial: number) => TrialSeen;
  readonly rightAt: (place: Stood) => boolean;
  readonly truthAt: (place: Stood) => Truth;
  /** Chance that a second trial came about as told, by who knows this truth and what hands do wrong. */
  readonly asTold?: (trials: readonly [TrialSeen, TrialSeen]) => number;
  /** Chance that drive and backlash are right at a place after a first trial, by who knows this truth. */
  readonly judge?: (first: TrialSeen) => (place: Stood) => number;
  /** A planner that knows this truth's form and geometry, but not the spreads of its population. */
  readonly observer?: () => Way;
  /** The ideal told everything of the set, where the technician is not. */
  readonly idealToldAll?: () => Way;
  /** A planner that knows this truth and what it was told of the set, where there is one; it may be held to leave the pinion while the gears bind. */
  readonly ideal?: (bound?: 'free' | 'pinion-stays') => Way;
}

/** What a way of working answers after some trials. */
export interface Step {
  readonly stay: boolean;
  readonly suspect: boolean;
  /** Whether it asks to look or to paint again in place of a shim: a false alarm, where nobody erred. */
  readonly alarm: 'check' | 'repaint' | undefined;
  readonly place: Stood;
  /** Chance told of being right at `place`, where the way tells one. */
  readonly chance?: number;
  readonly expected?: {
    readonly crown: number;
    readonly heel: number | undefined;
    readonly backlash: number;
    readonly U95: { readonly crown: number; readonly heel: number | undefined; readonly backlash: number };
  };
}

export type Way = (subject: Subject, trials: readonly TrialSeen[]) => Step;
