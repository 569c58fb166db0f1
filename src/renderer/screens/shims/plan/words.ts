import { sideWords } from '../../../../shared/presentation/drawing/flankWords.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { ExpectedSeen, SwapPlanned } from '../../../../shared/job/records/swap.ts';
import type { Place } from '../../../../shared/axle/plan/sight.ts';
import { changeWords, moveWords } from '../../../../shared/job/swap/swapWords.ts';
import { placeNames } from '../../../../shared/job/swap/makeSwap.ts';

/** The card in one line: "Pinion depth 0.400 mm thinner; ring-gear side 0.200 mm thicker, opposite side 0.200 mm thinner". */
export function cardLine(swap: SwapPlanned | undefined, move: Place, system: UnitSystem): string {
  if (swap === undefined) return moveWords(move, system);
  const shims = swap.lines.map((line) => `${placeNames[line.place]} ${changeWords(line, system)}`);
  const { notches = 0 } = swap;
  const turned =
    notches === 0
      ? []
      : [
          `ring gear ${Math.abs(notches)} ${Math.abs(notches) === 1 ? 'notch' : 'notches'} ${notches > 0 ? 'away' : 'closer'}`,
        ];
  const all = [...shims, ...turned];
  return all.length === 0 ? 'No shim changes' : sentence(all.join(', '));
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A place on the flank, without the one along the face where nobody can promise it. */
const placeOf = ({ heel, crown }: { readonly heel: number; readonly crown: number }, lengthwise: boolean): string =>
  [sideWords(crown, 'crown', 'root'), ...(lengthwise ? [sideWords(heel, 'heel', 'toe')] : [])].join(', ');

/** What should be seen then, in three short lines. */
export function expectedLines(
  { backlash, drive, coast, lengthwise }: ExpectedSeen,
  system: UnitSystem,
): readonly string[] {
  const length = (value: number): string => showText(value, 'length', system);
  return [
    `Backlash ${length(backlash.mean_mm)} ± ${length(backlash.U95_mm)}, stations ${length(backlash.min_mm)} to ${length(backlash.max_mm)}`,
    ...(drive === undefined ? [] : [`Drive mark ${placeOf(drive, lengthwise)}${doubt(drive.U95?.crown)}`]),
    ...(coast === undefined ? [] : [`Coast mark ${placeOf(coast, lengthwise)}${doubt(coast.U95?.crown)}`]),
  ];
}

const doubt = (crown: number | undefined): string =>
  crown === undefined ? '' : `; height within ${Math.round(crown * 100)} %`;

export const pinionSays =
  (system: UnitSystem) =>
  (value: number): string =>
    value === 0 ? 'stays' : `${showText(Math.abs(value), 'length', system)} ${value > 0 ? 'out' : 'deeper'}`;
export const ringSays =
  (system: UnitSystem) =>
  (value: number): string =>
    value === 0 ? 'stays' : `${showText(Math.abs(value), 'length', system)} ${value > 0 ? 'away' : 'closer'}`;
