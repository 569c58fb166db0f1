import type { Mark } from '../../axle/mark/mark.ts';
import { type Assembly, type Build, latest, packAt, type Swap, swapOf } from '../records/build.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { SwapLine } from '../records/swap.ts';
import { backlashOf, marksOf } from '../planning/seen.ts';
import { packTolerance_mm } from './packFault.ts';

export type Compared = 'backlash' | 'drive-height' | 'drive-face' | 'coast-height' | 'coast-face';

/** One figure that was expected, and what was read for it. */
export interface ComparedRow {
  readonly what: Compared;
  readonly expected: number;
  /** Expanded uncertainty of the expectation, the reading's own included. */
  readonly U95: number;
  readonly seen: number | undefined;
  /** Whether what was read lies within it; undefined while nothing was read. */
  readonly asExpected: boolean | undefined;
}

/** What the swap card of a trial expected, beside what the trial has shown. */
interface Comparison {
  readonly swap: Swap;
  readonly rows: readonly ComparedRow[];
  /** Packs that went in otherwise than the card asked: then the expectation was for another place. */
  readonly otherPacks: readonly SwapLine[];
}

/** @returns nothing for a trial that was not put together by a swap card. */
export function comparisonOf(build: Build, trial: Assembly): Comparison | undefined {
  const swap = swapOf(build, trial);
  if (swap === undefined) return undefined;
  const marks = marksOf(trial);
  const read = latest(trial, 'backlash')?.result;
  const felt = read?.kind === 'backlash' ? backlashOf(read) : undefined;
  const { backlash, drive, coast, lengthwise } = swap.expected;
  const place = (side: 'drive' | 'coast', mark: Mark | undefined): readonly ComparedRow[] => {
    if (mark === undefined) return [];
    const height = row(`${side}-height`, mark.crown, mark.U95?.crown, marks?.[side].crown);
    return lengthwise ? [height, row(`${side}-face`, mark.heel, mark.U95?.heel, marks?.[side].heel)] : [height];
  };
  return {
    swap,
    rows: [
      row('backlash', backlash.mean_mm, backlash.U95_mm, felt?.mean_mm),
      ...place('drive', drive),
      ...place('coast', coast),
    ],
    otherPacks: swap.lines.filter((line) => differs(trial, line)),
  };
}

function row(what: Compared, expected: number, U95 = 0, seen: number | undefined): ComparedRow {
  const asExpected = seen === undefined ? undefined : Math.abs(seen - expected) <= U95;
  return { what, expected, U95, seen, asExpected };
}

function differs(trial: Assembly, line: SwapLine): boolean {
  const pack = packAt(trial, line.place)?.pack;
  return pack !== undefined && Math.abs(insideOf(pack) - line.wanted_mm) > packTolerance_mm;
}
