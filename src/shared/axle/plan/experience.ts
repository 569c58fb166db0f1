/**
 * What earlier builds of a shop have in common, as one normal picture over the unknowns that `taughtAt` (guess.ts)
 * names, in the standard units of the plain prior: their middle, and the Cholesky factor of how they scatter, row after row.
 */
export interface Taught {
  readonly mean: readonly number[];
  readonly lower: readonly number[];
}

/** Middle and spread of what the model's backlash for each mm moved is off by (mm per mm). */
interface Answer {
  readonly mean: number;
  readonly spread: number;
}

/** Everything that earlier builds tell the plan: the one door by which they enter it. */
export interface Experience {
  readonly taught: Taught;
  readonly perPinionOut: Answer;
  readonly perRingAway: Answer;
  /** Where it comes from, to be told: "6 earlier builds of this axle". */
  readonly from: string;
}
