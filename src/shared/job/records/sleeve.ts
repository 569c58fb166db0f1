import type { QuantityTyped } from '../../basics/recorded.ts';
import type { TorqueResult } from './measurement.ts';
import type { DeedOf, Entry } from './notebook.ts';

/** One step of the nut on a crush sleeve, as it stands in the notebook. */
export interface SleeveStepTaken {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly result: TorqueResult;
  readonly nutTurn_deg?: number | undefined;
  readonly nutTorque?: QuantityTyped | undefined;
}

/** The crush sleeves of one assembly with the steps of the nut on each; all but the last were wasted. */
type Sleeves = readonly (readonly SleeveStepTaken[])[];

/** The sleeves of an assembly with one more step on the one that is in. */
export function sleevesAfter(
  sleeves: Sleeves,
  { id, at, by }: Entry,
  { result, nutTurn_deg, nutTorque }: DeedOf<'sleeve-step'>,
): Sleeves {
  const said = {
    ...(nutTurn_deg === undefined ? {} : { nutTurn_deg }),
    ...(nutTorque === undefined ? {} : { nutTorque }),
  };
  return [...sleeves.slice(0, -1), [...(sleeves.at(-1) ?? []), { id, at, by, result, ...said }]];
}
