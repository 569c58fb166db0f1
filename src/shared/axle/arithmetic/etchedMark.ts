import { type Length, mm } from '../../basics/quantity.ts';
import { fail, type Result } from '../../basics/result.ts';
import { type DepthAnswer, type DepthPlace, shimForMovement } from './depthShim.ts';

/**
 * How the depth mark on a pinion head is counted. Nothing in the mark itself says: +3 may be three thousandths of an
 * inch and +0.03 three hundredths of a millimetre (TM 10-3930-660-34), so the unit is chosen by a person.
 */
export const markUnits = ['0.001 in', '0.01 mm', '0.001 mm', 'mm', 'distance in inches', 'distance in mm'] as const;
export type MarkUnit = (typeof markUnits)[number];

const millimetres: Record<MarkUnit, number> = {
  '0.001 in': 0.0254,
  '0.01 mm': 0.01,
  '0.001 mm': 0.001,
  mm: 1,
  'distance in inches': 25.4,
  'distance in mm': 1,
};

/** What + means. Usually this pinion runs best further out; some makers mean a larger pinion, to be set deeper. */
export const plusMeanings = ['further out', 'deeper'] as const;
export type PlusMeaning = (typeof plusMeanings)[number];

export interface EtchedMark {
  readonly value: number;
  readonly unit: MarkUnit;
  readonly plusMeans: PlusMeaning;
}

const isDistance = (mark: EtchedMark): boolean => mark.unit.startsWith('distance');

/** How far out this pinion wants to sit, from wherever the mark counts from (its nominal place, or the ring-gear axis). */
export function wantedOut(mark: EtchedMark): Length {
  const size = mark.value * millimetres[mark.unit];
  return mm(mark.plusMeans === 'further out' || isDistance(mark) ? size : 0 - size);
}

/** A mark this large is no tolerance of a pinion: more likely the wrong unit was chosen (own limit). */
const largest = 0.6;

/**
 * The shim for a new pinion from the one that was right for the old: the pinion moves by the difference of the marks, so
 * identical marks give no change whatever their unit and meaning.
 */
export function carryShimOver(
  oldShim: Length,
  oldMark: EtchedMark,
  newMark: EtchedMark,
  place: DepthPlace,
): Result<DepthAnswer, 'marks-differ-in-kind' | 'mark-too-large' | 'no-such-shim'> {
  if (isDistance(oldMark) !== isDistance(newMark)) return differInKind();
  const pinionOut = wantedOut(newMark) - wantedOut(oldMark);
  if (Math.abs(pinionOut) > largest) return tooLarge(pinionOut);
  return shimForMovement(oldShim, mm(pinionOut), place);
}

const differInKind = (): Result<never, 'marks-differ-in-kind'> =>
  fail({
    kind: 'marks-differ-in-kind',
    field: 'newMark.unit',
    sentence: 'One mark is a deviation and the other a full distance: they cannot be compared.',
    remedy: 'Type both marks as the same kind, or start from the depth tool.',
  });

const tooLarge = (pinionOut: number): Result<never, 'mark-too-large'> =>
  fail({
    kind: 'mark-too-large',
    field: 'newMark.unit',
    sentence: `These marks would move the pinion by ${Math.abs(pinionOut).toFixed(3)} mm, more than any pinion’s tolerance.`,
    remedy: 'Check the unit of the marks and whether one of the numbers is the set number.',
  });

/** A printed rule for the shim's change: how often the old and the new mark are added. */
export interface PrintedRule {
  readonly old: -1 | 0 | 1;
  readonly new: -1 | 0 | 1;
}

/** What a printed rule makes of the shim that is in: the marks as sizes, added as it says. Nothing for full distances. */
export function byPrintedRule(
  rule: PrintedRule,
  shim: Length,
  oldMark: EtchedMark,
  newMark: EtchedMark,
): Length | undefined {
  if (isDistance(oldMark) || isDistance(newMark)) return undefined;
  const size = ({ value, unit }: EtchedMark): number => value * millimetres[unit];
  return mm(shim + rule.old * size(oldMark) + rule.new * size(newMark));
}

/**
 * Whether a printed rule can be right at all.
 * @returns the sentence that shows the contradiction, or undefined where identical marks change nothing.
 */
export function contradictionIn(rule: PrintedRule): string | undefined {
  const both = rule.old + rule.new;
  if (both === 0 && rule.new !== 0) return undefined;
  const outcome =
    both === 0 ? 'no mark would ever change the shim' : `two pinions marked +2 would change the shim by ${2 * both}`;
  return `This rule contradicts itself: ${outcome}, yet identical marks must give no change and different ones some.`;
}
