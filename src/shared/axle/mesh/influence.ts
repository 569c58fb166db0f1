import { at } from '../../basics/at.ts';
import { leastSquares } from '../../basics/leastSquares.ts';
import { gapOpened, type MeetingAt } from './meshing.ts';
import type { Vector } from './vector.ts';

/** What one movement does to the gap on a flank: height, slopes and change of curvature, each per mm moved. */
export interface Influence {
  readonly gap: number;
  readonly slopeU: number;
  readonly slopeV: number;
  readonly uu: number;
  readonly uv: number;
  readonly vv: number;
}

/** The movements a pair can make against each other. `E` is the offset: no shim moves it, but a bent housing does. */
export const directions = { pinionOut: [1, 0, 0], ringAway: [0, 0, -1], offsetUp: [0, 1, 0] } as const satisfies Record<
  string,
  Vector
>;
export type Movement = keyof typeof directions;

export type Influences = Readonly<Record<Movement, Influence>> & {
  /** Ring-gear roll at which each place touches; rad and per mm. */
  readonly roll: Influence;
};

/** The patch a mark's slopes are fitted over: ±4 mm along the face, ±1 mm up the flank, nine by five points. */
const patch = Array.from({ length: 45 }, (_, index) => ({ u: Math.floor(index / 5) - 4, v: (index % 5) / 2 - 1 }));

/** A quadric fitted to each movement's gap field about the place (0, `middle`). */
export function fitInfluence(meetingAt: MeetingAt, meanLever: number, middle: number): Influences | undefined {
  const meetings = patch.flatMap(({ u, v }) => {
    const meeting = meetingAt(u, middle + v);
    return meeting ? [{ u, v, meeting }] : [];
  });
  if (meetings.length < patch.length) return undefined;
  const rows = meetings.map(({ u, v }) => [1, u, v, (u * u) / 2, u * v, (v * v) / 2]);
  const fit = (values: readonly number[]): Influence => influenceFrom(leastSquares(rows, values)?.coefficients ?? []);
  const along = (direction: Vector): Influence =>
    fit(meetings.map(({ meeting }) => gapOpened(meeting, meanLever, direction)));
  return {
    pinionOut: along(directions.pinionOut),
    ringAway: along(directions.ringAway),
    offsetUp: along(directions.offsetUp),
    roll: fit(meetings.map(({ meeting }) => meeting.roll)),
  };
}

/** The six terms of the quadric; the full patch always carries them. */
const influenceFrom = (terms: readonly number[]): Influence => ({
  gap: at(terms, 0),
  slopeU: at(terms, 1),
  slopeV: at(terms, 2),
  uu: at(terms, 3),
  uv: at(terms, 4),
  vv: at(terms, 5),
});
