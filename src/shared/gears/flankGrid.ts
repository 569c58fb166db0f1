import { type ContactLines, linesAcross } from './contactLines.ts';
import { directions } from './influence.ts';
import { gapOpened, type MeetingAt } from './meshing.ts';
import { growthAt, placeUp, type VisibleFlank } from './visibleFlank.ts';

/** Points along the face and up the flank. Odd, so that the middle is a point; sized so that a mark's centre is good to 0.002. */
export const columns = 65;
export const rows = 33;

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
  /** Gap opened for each mm of pinion out and ring gear away. */
  readonly perPinionOut: Float64Array;
  readonly perRingAway: Float64Array;
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
  meetingAt: MeetingAt,
  meanLever: number,
  visible: VisibleFlank,
  pitch: number,
): FlankGrid | undefined {
  const empty = (): Float64Array => new Float64Array(columns * rows);
  const grid = { u: empty(), v: empty(), roll: empty(), perPinionOut: empty(), perRingAway: empty(), area: empty() };
  for (const [column, row] of boustrophedon) {
    const index = column * rows + row;
    const u = heelOf(column) * visible.faceWidth;
    const v = placeUp(visible, u, crownOf(row));
    const meeting = meetingAt(u, v);
    if (!meeting) return undefined;
    grid.u[index] = u;
    grid.v[index] = v - visible.middle;
    grid.roll[index] = meeting.roll;
    grid.perPinionOut[index] = gapOpened(meeting, meanLever, directions.pinionOut);
    grid.perRingAway[index] = gapOpened(meeting, meanLever, directions.ringAway);
    grid.area[index] = growthAt(visible, u) * edgeShare(column, columns) * edgeShare(row, rows);
  }
  return { ...grid, visible, lines: linesAcross(grid.roll, rows, pitch) };
}

/** A point on an edge stands for half a cell. */
const edgeShare = (index: number, count: number): number => (index === 0 || index === count - 1 ? 0.5 : 1);

/** The grid's points like an ox ploughs: each next to the one before, so that the search for it starts close by. */
const boustrophedon: readonly (readonly [number, number])[] = Array.from({ length: columns * rows }, (_, index) => {
  const column = Math.floor(index / rows);
  const step = index % rows;
  return [column, column % 2 === 0 ? step : rows - 1 - step] as const;
});
