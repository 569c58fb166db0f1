import { mean } from '../../basics/statistics.ts';
import { edgeNames, isBound, type Mark } from '../mark/mark.ts';
import type { Axle } from './guess.ts';
import { type Side, sides } from './input.ts';
import type { QuickMark } from './quickFlank.ts';
import type { Reading } from './reading.ts';
import { asRead, backlashAt, markAt, type Place, type Sight } from './sight.ts';

/** A mark's place is taken as good to this (standard uncertainty, fraction of the flank) where nobody says. */
const usualReading = 0.04;
/**
 * What the model may be off by (fractions of the flank): in a centre, and in a size, which depends on who reads how faint
 * an edge. Of a mark that an edge cuts off only a rest is seen, whose shape hangs on how the film is wiped there.
 */
const doubts = {
  whole: { centre: 0.015, size: 0.05 },
  cutOff: { centre: 0.05, size: 0.2 },
} as const;
/** Spread of the share of film at which an edge shows as feathered or hard. */
const edgeSpread = 0.25;
/** Beyond three films an edge is simply clear. */
const slackest = 3;

/** Standard uncertainty of a mark's place: half the stated U95, never better than a hundredth of the flank. */
export const readingOf = (mark: Mark, along: 'heel' | 'crown'): number =>
  mark.U95 === undefined ? usualReading : Math.max(0.01, mark.U95[along] / 2);

export type Marks = Readonly<Record<Side, QuickMark>>;

/** The mark that a guessed axle would have shown in the reading of this number, in that reading's film. */
export const shownIn = (axle: Axle, side: Side, reading: Reading, index: number): QuickMark =>
  markAt(axle, side, absolute(axle, reading), axle.films[index]);

/** From where the gears were cut to stand, or ran before; only readings since the first trial do not know their distance from it. */
const absolute = (axle: Axle, { from, place }: Reading): Place =>
  from === 'where-it-ran'
    ? { pinionOut: place.pinionOut - axle.pinionOut, ringAway: place.ringAway - axle.ringAway }
    : place;

/** All misfits of one reading in standard uncertainties: both marks and, where it was read, the backlash. */
export const misfitsOf = (sight: Sight, axle: Axle, reading: Reading, shown: Marks): readonly number[] => [
  ...sides.flatMap((side) => markMisfits(reading.pattern[side], asRead(shown[side], axle))),
  backlashMisfit(sight, axle, reading, shown),
];

/**
 * How far a mark that a guess would show is from the one that was read: centre, size and edges. The guess's own mark
 * is cut by the same edges, so a clipped mark bounds the guess and does not place it.
 */
function markMisfits(mark: Mark, shown: QuickMark): readonly number[] {
  const [heel, crown] = [doubtOf(mark, 'heel'), doubtOf(mark, 'crown')];
  const [toeEdge = 0, heelEdge = 0, ...upAndDown] = edgeNames.map((edge, index) =>
    edgeMisfit(mark.edges[edge], Math.min(slackest, shown.edgeGaps[index] ?? slackest)),
  );
  return [
    (shown.crown - mark.crown) / crown.centre,
    (shown.height - mark.height) / crown.size,
    (shown.length - mark.length) / heel.size,
    ...upAndDown,
    (shown.heel - mark.heel) / heel.centre,
    toeEdge,
    heelEdge,
  ].map(eased);
}

/** How far axles on the average would have shown the drive mark's height from where it was read (standard uncertainties). */
export function heightMisfit(axles: readonly Axle[], reading: Reading, index: number): number {
  const { drive } = reading.pattern;
  const shown = axles.map((axle) => shownIn(axle, 'drive', reading, index).crown);
  return Math.abs(mean(shown) - drive.crown) / doubtOf(drive, 'crown').centre;
}

/** How well a mark's centre and size are known in one direction: its reading and the model together. */
function doubtOf(mark: Mark, along: 'heel' | 'crown'): { readonly centre: number; readonly size: number } {
  const reading = readingOf(mark, along);
  const cutOff = isBound(mark, along);
  const model = cutOff ? doubts.cutOff : doubts.whole;
  // Cut off across, the middle is still seen, but not all of the mark has it.
  const across = !cutOff && isBound(mark, along === 'heel' ? 'crown' : 'heel') ? 0.03 : 0;
  return { centre: Math.hypot(reading, model.centre, across), size: Math.hypot(reading, model.size, across) };
}

/** Beyond this a misfit counts in proportion and no longer by its square: marks are now and then misread (own choice). */
const easedFrom = 1.5;

const eased = (misfit: number): number => {
  const size = Math.abs(misfit);
  return size <= easedFrom ? misfit : Math.sign(misfit) * Math.sqrt(easedFrom * (2 * size - easedFrom));
};

/** An edge that is clear says only that the film did not reach it; a hard one, that little of it was left there. */
function edgeMisfit(seen: Mark['edges']['toe'], gap: number): number {
  if (seen === 'clear') return Math.min(0, gap - 1) / edgeSpread;
  if (seen === 'hard') return Math.max(0, gap - 0.5) / edgeSpread;
  return (Math.max(0, gap - 1) + Math.min(0, gap - 0.5)) / edgeSpread;
}

function backlashMisfit(sight: Sight, axle: Axle, reading: Reading, shown: Marks): number {
  if (reading.backlash === undefined) return 0;
  const { mean, doubt } = reading.backlash;
  const off = (backlashAt(sight, axle, reading.place, shown.drive.turn + shown.coast.turn) - mean) / doubt;
  // Gears that bind read nothing at all, however far they are pressed together.
  return mean <= 0 ? Math.max(0, off) : off;
}
