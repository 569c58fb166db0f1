import type { SleeveStep, SleeveTarget } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { degrees, newtonMetres, toDegrees } from '../../../../shared/basics/quantity.ts';
import { insideOf, type TorqueBasis } from '../../../../shared/basics/recorded.ts';
import type { Assembly } from '../../../../shared/job/records/build.ts';
import type { SleeveStepTaken } from '../../../../shared/job/records/sleeve.ts';
import type { TorqueResult } from '../../../../shared/job/records/measurement.ts';
import { endsOf, type Limit, type SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';
import { torqueLimit } from '../torque/settings.ts';

/** The steps of the nut on the sleeve that is in now, as the notebook has them: a new sleeve begins at the beginning. */
export const stepsOf = ({ sleeves }: Pick<Assembly, 'sleeves'>): readonly SleeveStep[] =>
  (sleeves.at(-1) ?? []).flatMap((taken) => stepFrom(taken.result, saidOf(taken)) ?? []);

const saidOf = ({ nutTurn_deg, nutTorque }: SleeveStepTaken): NutSaid => ({
  turn_deg: nutTurn_deg,
  torque_Nm: nutTorque === undefined ? undefined : insideOf(nutTorque),
});

/** The entry that taking the last step back strikes through. */
export const lastStepOf = ({ sleeves }: Pick<Assembly, 'sleeves'>): string | undefined => sleeves.at(-1)?.at(-1)?.id;

/** Where the creeping goes: the band of the limit for this state, and the nut's largest torque. */
export interface SleeveAim {
  readonly target: SleeveTarget;
  readonly limit: Limit;
  readonly ceiling: Limit | undefined;
}

/** @returns undefined while no band with two ends is entered for a torque in this state. */
export function sleeveAim(sheet: SpecSheet | undefined, basis: TorqueBasis): SleeveAim | undefined {
  const limit = torqueLimit(sheet, 'pinion-torque', basis);
  const { min, max } = limit === undefined ? {} : endsOf(limit);
  if (limit === undefined || min === undefined || max === undefined) return undefined;
  const band = { min: newtonMetres(min), max: newtonMetres(max) };
  const nut = sheet?.limits.find(({ quantity }) => quantity === 'pinion-nut-torque');
  const most = nut === undefined ? undefined : endsOf(nut).max;
  return most === undefined
    ? { target: band, limit, ceiling: undefined }
    : { target: { ...band, ceiling: newtonMetres(most) }, limit, ceiling: nut };
}

/** What was typed of the nut in this step. */
export interface NutSaid {
  readonly turn_deg: number | undefined;
  readonly torque_Nm: number | undefined;
}

/** How far the nut has gone on this sleeve, the step at hand included, as far as it was typed. */
export const nutTurned_deg = (steps: readonly SleeveStep[], now: NutSaid): number =>
  steps.reduce((sum, { nutTurn }) => sum + (nutTurn === undefined ? 0 : toDegrees(nutTurn)), now.turn_deg ?? 0);

/** A step as it was read and, as far as it was typed, turned; undefined while there is no torque that counts. */
export function stepFrom(result: TorqueResult, { turn_deg, torque_Nm }: NutSaid): SleeveStep | undefined {
  const starting = result.basis.basis === 'starting';
  const value = starting ? result.breakaway_Nm : result.running_Nm;
  if (isNone(value)) return undefined;
  // A breakaway keeps its expanded uncertainty only; two of the standard ones make it.
  const u = starting ? numberOr0(result.breakawayU95_Nm) / 2 : numberOr0(result.u_Nm);
  return {
    running: newtonMetres(value),
    u,
    ...(turn_deg === undefined ? {} : { nutTurn: degrees(turn_deg) }),
    ...(torque_Nm === undefined ? {} : { nutTorque: newtonMetres(torque_Nm) }),
  };
}

const numberOr0 = (value: OrNone<number>): number => (isNone(value) ? 0 : value);
