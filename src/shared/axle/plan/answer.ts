import type { NoNumber } from '../../basics/result.ts';
import type { Side } from './input.ts';

/**
 * `check`: the trials contradict each other or the shims, and `look` says what to look at first. `repaint`: the marks
 * tell nothing, and `look` says how to paint. Neither asks for a shim.
 */
type Decision = Weighed | 'check' | 'repaint';

/** What weighing the trials can end in. */
export type Weighed = 'change' | 'leave' | 'suspect';

/** A place on a flank; along the face it is withheld while the cut is not known. */
export interface ExpectedPlace {
  readonly heel: number | NoNumber;
  readonly crown: number;
}

/** What should be read at the position answered, and to within what (expanded uncertainty, reading included). */
export interface Expected {
  readonly backlash: { readonly mean_mm: number; readonly min_mm: number; readonly max_mm: number };
  readonly pattern: Readonly<Record<Side, ExpectedPlace>>;
  readonly U95: { readonly backlash_mm: number } & Readonly<Record<Side, ExpectedPlace>>;
}

/** What `plan` answers (docs/command-line.md). Movements are totals since the first trial: the next trial's, or with `leave` the present ones. */
export interface PlanAnswer {
  readonly decision: Decision;
  /** Of axles that fit the readings, the share that is right at the position answered. */
  readonly chance: number | NoNumber;
  /** What to look at first, in order; empty where a shim is the answer. */
  readonly look: readonly string[];
  readonly pinionOut_mm: number;
  readonly ringAway_mm: number;
  readonly expected: Expected | NoNumber;
  /** One plain sentence for each reason, weightiest first. */
  readonly reasons: readonly string[];
  readonly warnings: readonly string[];
}
