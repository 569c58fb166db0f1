import { edgeNames, type Mark } from '../mark/mark.ts';
import type { Axle } from './guess.ts';
import { type Side, sides } from './input.ts';
import type { QuickMark } from './quickFlank.ts';
import type { Reading } from './reading.ts';
import { backlashAt, markAt, type Place, type Sight } from './sight.ts';

/** A mark's place is taken as good to this (standard uncertainty, fraction of the flank) where nobody says. */
const usualReading = 0.04;
/** What the model may be off by: in a centre, and in a size, which depends on who reads how faint an edge. */
const modelCentre = 0.01;
const modelSize = 0.06;
/** Spread of the share of film at which an edge shows as feathered or hard. */
const edgeSpread = 0.35;
/** Beyond three films an edge is simply clear. */
const slackest = 3;

/** Standard uncertainty of a mark's place: half the stated U95, never better than a hundredth of the flank. */
export const readingOf = (mark: Mark, along: 'heel' | 'crown'): number =>
  mark.U95 === undefined ? usualReading : Math.max(0.01, mark.U95[along] / 2);

export type Marks = Readonly<Record<Side, QuickMark>>;

/** The mark that a guessed axle would have shown in a reading. */
export const shownIn = (sight: Sight, axle: Axle, side: Side, reading: Reading): QuickMark =>
  markAt(sight, axle, side, absolute(axle, reading));

/** From where the gears were cut to stand, or ran before; only readings since the first trial do not know their distance from it. */
const absolute = (axle: Axle, { from, place }: Reading): Place =>
  from === 'where-it-ran'
    ? { pinionOut: place.pinionOut - axle.pinionOut, ringAway: place.ringAway - axle.ringAway }
    : place;

/** All misfits of one reading in standard uncertainties: both marks and, where it was read, the backlash. */
export const misfitsOf = (sight: Sight, axle: Axle, reading: Reading, shown: Marks): readonly number[] => [
  ...sides.flatMap((side) => markMisfits(reading.pattern[side], shown[side], sight.lengthwise)),
  backlashMisfit(sight, axle, reading, shown),
];

/**
 * How far a mark that a guess would show is from the one that was read: centre, size and edges. The guess's own mark
 * is cut by the same edges, so a clipped mark bounds the guess and does not place it.
 * @param lengthwise whether the model's answer along the face may be believed at all.
 */
function markMisfits(mark: Mark, shown: QuickMark, lengthwise: boolean): readonly number[] {
  const [heel, crown] = [readingOf(mark, 'heel'), readingOf(mark, 'crown')];
  const [toeEdge = 0, heelEdge = 0, ...upAndDown] = edgeNames.map((edge, index) =>
    edgeMisfit(mark.edges[edge], Math.min(slackest, shown.edgeGaps[index] ?? slackest)),
  );
  const alongFace = [(shown.heel - mark.heel) / Math.hypot(heel, modelCentre), toeEdge, heelEdge];
  return [
    (shown.crown - mark.crown) / Math.hypot(crown, modelCentre),
    (shown.height - mark.height) / Math.hypot(crown, modelSize),
    (shown.length - mark.length) / Math.hypot(heel, modelSize),
    ...upAndDown,
    ...alongFace.map((misfit) => (lengthwise ? misfit : 0)),
  ];
}

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
