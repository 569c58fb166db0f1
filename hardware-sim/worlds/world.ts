/**
 * A world makes readings by beliefs of its own, with what is true beside them. The twin and its hands were made by the
 * same minds as the measuring, and agree with it; a world disagrees on purpose, and shares no code with either.
 */
export interface World {
  /** Unique among the worlds of its kind; `home` names the one in which the measuring's own beliefs hold. */
  readonly name: string;
  readonly kind: Kind;
  /** What holds here, in one sentence with its figures: the assumption a row of the table rests on. */
  readonly belief: string;
  /** An honest technician lives here: at least eight in ten deserve a number. */
  readonly honest: boolean;
  /** The same seed makes the same scene on every machine. */
  readonly make: (seed: number) => Scene;
}

export type Kind = 'backlash' | 'runout' | 'torque';

/** One measurement of that world: what the gauge sent, what is true, and what the technician says of the gauge. */
export interface Scene {
  readonly samples: readonly Sample[];
  /** Every figure asked for, stations in their order. */
  readonly truths: readonly Truth[];
  readonly told: Told;
}

/** One line of the stream, as `watch` writes it: seconds; mm or N·m; degrees of the ring gear, for torque of the pinion. */
export type Sample =
  | { readonly t: number; readonly value: number; readonly unit: 'mm' | 'N.m'; readonly angle_deg?: number }
  | { readonly t: number; readonly pedal: 'next' | 'again' };

/** A figure and its true value in mm or N·m; `none` where nothing was measured, so that any number is a wrong one. */
export interface Truth {
  readonly of: 'runout' | 'station' | 'running' | 'breakaway';
  readonly value: number | 'none';
}

/** What is said of the gauge, in mm or N·m. Left out means not said, not nought. */
export interface Told {
  readonly resolution: number;
  /** Standard uncertainty. */
  readonly gaugeU?: number;
  /** Full width between going in and coming out. */
  readonly hysteresis?: number;
}
