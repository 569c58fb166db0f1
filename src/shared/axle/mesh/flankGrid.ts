import { type ContactLines, linesAcross } from './contactLines.ts';
import type { Frame } from './frame.ts';
import { directions, type Movement } from './influence.ts';
import { gapOpened, type Meeting, type MeetingAt } from './meshing.ts';
import { following, partnerShift, type RollSlope } from './partner.ts';
import { growthAt, placeUp, type VisibleFlank } from './visibleFlank.ts';

/** Points along the face and up the flank. Odd, so that the middle is a point; sized so that a mark's centre is good to 0.002. */
export const columns = 65;
export const rows = 33;
/** Index of the point at mid face and mid flank. */
export const middlePoint = ((columns - 1) / 2) * rows + (rows - 1) / 2;

/** What one movement does at each grid point, for each mm moved. */
interface MovedGrid {
  /** Gap opened. */
  readonly gap: Float64Array;
  /** How far off (mm) the place lies whose relief the point now meets: the relief travels with the pinion. */
  readonly partnerU: Float64Array;
  readonly partnerV: Float64Array;
}

/**
 * Everything about one flank that movements do not change, on a grid over the visible flank. Point (column, row) has
 * index column × rows + row; column 0 is the toe edge, row 0 the root edge.
 */
export interface FlankGrid {
  readonly visible: VisibleFlank;
  /** Place on the tooth, mm from mid face and from mid flank at mid face. */
  readonly u: Float64Array;
  readonly v: Float64Array;
  /** Ring-gear roll at which the point touches (rad). */
  readonly roll: Float64Array;
  /** How the gap at the point grows off its own roll: half of this times the square of the roll missed (mm/rad², as seen at the mean point). */
  readonly bend: Float64Array;
  /** What each mm of the two shim movements does. */
  readonly pinionOut: MovedGrid;
  readonly ringAway: MovedGrid;
  /** Share of the flank's area that the point stands for: less on edges, more where the tooth is taller. */
  readonly area: Float64Array;
  readonly lines: ContactLines;
}

/** Fraction of the face from its middle, towards the heel. */
export const heelOf = (column: number): number => column / (columns - 1) - 0.5;
/** Fraction of the visible height from its middle, towards the crown. */
export const crownOf = (row: number): number => row / (rows - 1) - 0.5;

/**
 * Samples a flank over its visible part.
 * @param pitch ring-gear roll from one tooth to the next (rad).
 */
export function gridOf(
  frame: Frame,
  meetingAt: MeetingAt,
  mean: Meeting,
  visible: VisibleFlank,
  pitch: number,
): FlankGrid | undefined {
  const places = placesOver(visible);
  const meetings = meetingsAt(meetingAt, visible, places);
  if (meetings === undefined) return undefined;
  const roll = Float64Array.from(meetings, (meeting) => meeting.roll);
  const slopes = meetings.map((_, index) => rollSlope(places, roll, index));
  const opened = (movement: Movement): MovedGrid => {
    const direction = directions[movement];
    const shifts = meetings.map((meeting, index) =>
      partnerShift(frame, meeting, mean, slopes[index] ?? still, direction),
    );
    return {
      gap: Float64Array.from(meetings, (meeting) => gapOpened(meeting, mean.lever, direction)),
      partnerU: Float64Array.from(shifts, (shift) => shift.u),
      partnerV: Float64Array.from(shifts, (shift) => shift.v),
    };
  };
  return {
    visible,
    ...places,
    roll,
    bend: Float64Array.from(
      meetings,
      (meeting, index) => (bendOf(meeting, slopes[index] ?? still) * mean.lever) / meeting.lever,
    ),
    pinionOut: opened('pinionOut'),
    ringAway: opened('ringAway'),
    lines: linesAcross(roll, rows, pitch),
  };
}

const still = { u: 0, v: 0 };

type Places = Pick<FlankGrid, 'u' | 'v' | 'area'>;

function placesOver(visible: VisibleFlank): Places {
  const over = (of: (column: number, row: number) => number): Float64Array =>
    Float64Array.from({ length: columns * rows }, (_, index) => of(Math.floor(index / rows), index % rows));
  const along = (column: number): number => heelOf(column) * visible.faceWidth;
  return {
    u: over((column) => along(column)),
    v: over((column, row) => placeUp(visible, along(column), crownOf(row)) - visible.middle),
    area: over((column, row) => growthAt(visible, along(column)) * edgeShare(column, columns) * edgeShare(row, rows)),
  };
}

/** A point on an edge stands for half a cell. */
const edgeShare = (index: number, count: number): number => (index === 0 || index === count - 1 ? 0.5 : 1);

function meetingsAt(meetingAt: MeetingAt, visible: VisibleFlank, { u, v }: Places): Meeting[] | undefined {
  const meetings: Meeting[] = [];
  for (const index of boustrophedon) {
    const meeting = meetingAt(u[index] ?? 0, (v[index] ?? 0) + visible.middle);
    if (!meeting) return undefined;
    meetings[index] = meeting;
  }
  return meetings;
}

/** The grid's points like an ox ploughs: each next to the one before, so that the search for it starts close by. */
const boustrophedon: readonly number[] = Array.from({ length: columns * rows }, (_, index) => {
  const column = Math.floor(index / rows);
  const step = index % rows;
  return column * rows + (column % 2 === 0 ? step : rows - 1 - step);
});

/** Slope of the meeting roll at a grid point, from its neighbours. */
function rollSlope({ u, v }: Places, roll: Float64Array, index: number): RollSlope {
  const row = index % rows;
  const column = (index - row) / rows;
  const along = [index + (column < columns - 1 ? rows : 0), index - (column > 0 ? rows : 0)] as const;
  const up = [index + (row < rows - 1 ? 1 : 0), index - (row > 0 ? 1 : 0)] as const;
  const change = (of: Float64Array, [to, from]: readonly [number, number]): number => (of[to] ?? 0) - (of[from] ?? 0);
  const perV = change(roll, up) / change(v, up);
  return { u: (change(roll, along) - perV * change(v, along)) / change(u, along), v: perV };
}

/**
 * Off its own roll a point stands clear of the pinion by ½ B (roll missed)². From the envelope's curvature:
 * B = parting / (1 + slide · ∇roll), because while it parts it also slides to where the pinion was cut at another roll.
 */
const bendOf = ({ parting, slide }: Meeting, slope: RollSlope): number => parting / following(slide, slope);
