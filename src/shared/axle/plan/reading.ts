import type { Mark } from '../mark/mark.ts';
import type { PlanInput, Side, TrialSeen } from './input.ts';
import type { Place } from './sight.ts';

/** One assembly that showed something: a trial, or the position a used set has run in. */
export interface Reading {
  /** Counted from the first trial, or from where the gears ran before (`from`). */
  readonly place: Place;
  readonly from: 'first-trial' | 'where-it-ran';
  readonly pattern: Readonly<Record<Side, Mark>>;
  readonly backlash?: { readonly mean: number; readonly doubt: number };
}

/** What the model itself may be off by in a backlash (mm). */
const modelBacklash = 0.004;

export const placeOf = (trial: TrialSeen): Place => ({ pinionOut: trial.pinionOut_mm, ringAway: trial.ringAway_mm });

/** Everything that was read, in order; a used set's own marks come first. */
export const readingsOf = ({ target, trials }: Pick<PlanInput, 'target' | 'trials'>): readonly Reading[] => [
  ...(target.kind === 'used-set' ? [ownMarks(target)] : []),
  ...trials.map(trialReading),
];

const ownMarks = ({ drive, coast }: { readonly drive: Mark; readonly coast: Mark }): Reading => ({
  place: { pinionOut: 0, ringAway: 0 },
  from: 'where-it-ran',
  pattern: { drive, coast },
});

/** A mean that nobody vouched for is taken as good to 0.01 mm. */
function trialReading(trial: TrialSeen): Reading {
  const doubt = Math.hypot((trial.backlash.U95_mm ?? 0.01) / 2, modelBacklash);
  return {
    place: placeOf(trial),
    from: 'first-trial',
    pattern: trial.pattern,
    backlash: { mean: trial.backlash.mean_mm, doubt },
  };
}
