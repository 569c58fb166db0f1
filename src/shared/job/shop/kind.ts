import type { Build } from '../records/build.ts';
import { handOf, teethOf } from '../experience/likeness.ts';
import type { BuildSummary } from './summary.ts';
import { closedUp, folded } from './folded.ts';

/** What builds are put together by; empty where it is not known, and then nothing is of the same kind. */
export interface Kind {
  /** As the shop calls it; without a name by its teeth. */
  readonly axle: string;
  readonly customer: string;
  readonly set: string;
  /** What an earlier build must have in common with this one to teach it anything (likeness.ts). */
  readonly teeth: string;
  readonly hand: string;
}

export function kindOf(build: Build, { axle, customer, set }: BuildSummary): Kind {
  const teeth = teethOf(build.makeUp);
  return {
    axle: axle === undefined ? teeth : folded(axle),
    customer: folded(customer ?? ''),
    set: set === undefined ? '' : `${closedUp(set.pinion)} ${closedUp(set.ringGear)}`,
    teeth,
    hand: handOf(build),
  };
}
