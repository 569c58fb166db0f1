import { drawnByHand } from '../mark/compare.ts';
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

/**
 * What readings that contradict the others may be off by, once it was looked and nothing was found (standard
 * uncertainty; own choice): about what made them contradict.
 */
const doubtUnexplained = { backlash_mm: 0.03, mark: 0.06 } as const;

const doubted = ({ drive, coast }: TrialSeen['pattern']): Reading['pattern'] => ({
  drive: lessSure(drive),
  coast: lessSure(coast),
});

const lessSure = (mark: Mark): Mark => {
  const { heel, crown } = mark.U95 ?? drawnByHand;
  const more = 2 * doubtUnexplained.mark;
  return { ...mark, U95: { heel: Math.hypot(heel, more), crown: Math.hypot(crown, more) } };
};

/** A mean that nobody vouched for is taken as good to 0.01 mm. */
function trialReading(trial: TrialSeen): Reading {
  const unexplained = trial.looked === true ? doubtUnexplained : { backlash_mm: 0, mark: 0 };
  const doubt = Math.hypot((trial.backlash.U95_mm ?? 0.01) / 2, modelBacklash, unexplained.backlash_mm);
  return {
    place: placeOf(trial),
    from: 'first-trial',
    pattern: trial.looked === true ? doubted(trial.pattern) : trial.pattern,
    backlash: { mean: trial.backlash.mean_mm, doubt },
  };
}
