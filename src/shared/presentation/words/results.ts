import { decimalsWritten, showText, type UnitSystem } from '../../basics/show.ts';
import { type Dimension, unitNamed } from '../../basics/units.ts';
import { insideOf, type QuantityTyped } from '../../basics/recorded.ts';
import type {
  ConfirmedResult,
  How,
  Locking,
  MeasuredResult,
  NotchesResult,
  Oil,
  oilUnits,
  TorqueResult,
} from '../../job/records/measurement.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { reasonShort } from './refusals.ts';
import { noCase } from '../../basics/noCase.ts';

/** A number, or why there is none. */
export const orReason = (value: OrNone<number>, dimension: Dimension, system: UnitSystem): string =>
  isNone(value) ? reasonShort(value.none) : showText(value, dimension, system);

/** A number with its expanded uncertainty, where the record has one; or why there is no number. */
export function withDoubt(
  value: OrNone<number>,
  U95: OrNone<number> | undefined,
  dimension: Dimension,
  system: UnitSystem,
): string {
  const said = orReason(value, dimension, system);
  return isNone(value) || U95 === undefined || isNone(U95) ? said : `${said} ± ${showText(U95, dimension, system)}`;
}

/**
 * A typed quantity in the units of the session, to the last place that was typed or that its tool shows, whichever is finer:
 * 1.5 read off a scale of hundredths is 1.50.
 */
export const typedText = (typed: QuantityTyped, system: UnitSystem, step?: QuantityTyped): string => {
  const dimension = unitNamed(typed.unit)?.dimension ?? 'length';
  const lastPlace = insideOf({ ...typed, value: 10 ** -decimalsWritten(typed.value) });
  const resolution = step === undefined ? lastPlace : Math.min(lastPlace, insideOf(step));
  return showText(insideOf(typed), dimension, system, resolution);
};

/** A result in the few characters that a line of the job has room for. */
export function resultBrief(result: MeasuredResult, system: UnitSystem, how?: How): string {
  switch (result.kind) {
    case 'backlash':
      return isNone(result.min_mm) || isNone(result.max_mm)
        ? orReason(result.min_mm, 'length', system)
        : span(result.min_mm, result.max_mm, system);
    case 'runout':
      return orReason(result.tir_mm, 'length', system);
    case 'torque':
      return orReason(torqueTold(result), 'torque', system);
    case 'play':
      return orReason(result.value_mm, 'length', system);
    case 'quantity':
      return typedText(
        result.value,
        system,
        how?.kind === 'typed' ? sameKind(how.resolution, result.value) : undefined,
      );
    case 'feeler':
      return `${typedText(result.thickness, system)} ${result.entered ? 'enters' : 'does not enter'}`;
    case 'set-numbers':
      return result.pinion === result.ringGear ? `${result.pinion}, alike` : `${result.pinion} and ${result.ringGear}`;
    case 'shims':
      return result.packs.length === 1 ? '1 place' : `${result.packs.length} places`;
    case 'confirmed':
      return [result.yes ? 'yes' : 'no', ...confirmedDetails(result)].join(', ');
    case 'notches':
      return notchesBrief(result, system);
    case 'mark':
      return { accepted: 'accepted', change: 'asks for a change', recorded: 'recorded' }[result.judgement];
    default:
      throw noCase(result);
  }
}

/** "1.50, 6.10 and 6.10 mm": the packs are what is looked for; nothing for any other result. */
export function packsBrief(result: MeasuredResult, system: UnitSystem): string | undefined {
  if (result.kind !== 'shims' || result.packs.length === 0) return undefined;
  return result.packs.map(({ pack }) => typedText(pack, system)).join(', ');
}

/** A step of the same dimension; a tool of another kind says nothing about this number. */
const sameKind = (step: QuantityTyped, value: QuantityTyped): QuantityTyped | undefined =>
  unitNamed(step.unit)?.dimension === unitNamed(value.unit)?.dimension ? step : undefined;

/** What a confirmation says besides yes or no: "10 bolts", "staked", "1.6 l of the oil on the plate". */
export const confirmedDetails = ({ counted, lockedBy, oil }: ConfirmedResult): readonly string[] => [
  ...(counted === undefined ? [] : [counted === 1 ? '1 bolt' : `${counted} bolts`]),
  ...(lockedBy === undefined ? [] : [lockingWords[lockedBy]]),
  ...(oil === undefined ? [] : [oilText(oil)]),
];

export const lockingWords: Readonly<Record<Locking, string>> = {
  staked: 'staked',
  pinned: 'pinned',
  'self-locking': 'new self-locking',
  'thread-locker': 'thread locker',
  'lock-plates': 'lock plates',
};

export const oilUnitWords: Readonly<Record<(typeof oilUnits)[number], string>> = {
  L: 'l',
  '[qt_us]': 'qt',
  '[pt_us]': 'pt',
};

const oilText = ({ name, amount }: Oil): string =>
  amount === undefined ? name : `${amount.value} ${oilUnitWords[amount.unit]} of ${name}`;

/** The running torque; of one that was read as starting alone, the breakaway. */
const torqueTold = ({ running_Nm, breakaway_Nm, basis }: TorqueResult): OrNone<number> =>
  isNone(running_Nm) && basis.basis === 'starting' ? breakaway_Nm : running_Nm;

/** "2 and 1 notches, 0.150 mm": ring-gear side first; in length where it is known what a notch moves. */
function notchesBrief({ ringSide, oppositeSide, each_mm }: NotchesResult, system: UnitSystem): string {
  const moved = each_mm === undefined ? '' : `, ${showText((ringSide + oppositeSide) * each_mm, 'length', system)}`;
  return `${ringSide} and ${oppositeSide} notches${moved}`;
}

/** "0.205–0.231 mm": the unit once. */
function span(low: number, high: number, system: UnitSystem): string {
  const lowest = showText(low, 'length', system);
  return `${lowest.slice(0, lowest.indexOf(' '))}–${showText(high, 'length', system)}`;
}
