import { wrapped } from '../../basics/harmonics.ts';

/**
 * Mean of a torque over whole turns. Where the angle is measured it is the mean over the angle, which is the work of a
 * turn divided by 2π: a hand that lingers where the shaft turns hard does not pull the mean up. Where turns are only
 * marked it is the mean over the time between two marks.
 */
export interface WholeTurns {
  /** Means of the turns with the pull they belong to, in order; the first 200 of a session. */
  means: readonly TurnOfPull[];
  /** Pulls begun so far. */
  pulls: number;
  /** Angle without its jumps, how far the shaft has gone since this pull began, and the furthest of it. */
  travel: number;
  began: number;
  furthest: number;
  lastValue: number;
  area: number;
  /** Time and area since the last mark. */
  markT: number;
  lastT: number;
  timeValue: number;
  markArea: number;
}

/** A turn, and in which pull it was made: the zero of each pull is its own. */
interface TurnOfPull {
  readonly mean: number;
  readonly pull: number;
}

export const noTurns = (): WholeTurns => ({
  means: [],
  pulls: 0,
  travel: Number.NaN,
  began: Number.NaN,
  furthest: 0,
  lastValue: Number.NaN,
  area: 0,
  markT: Number.NaN,
  lastT: Number.NaN,
  timeValue: Number.NaN,
  markArea: 0,
});

const most = 200;
const turn = 2 * Math.PI;
/** Breakaway has worn off, and the shaft is turning for certain, a twelfth of a turn after the start. */
const leadIn = turn / 12;

/** A new pull: what was begun of a turn does not count, for the shaft has stood still in it. */
export function startPull(turns: WholeTurns): void {
  turns.pulls += 1;
  turns.began = Number.NaN;
  turns.furthest = 0;
  turns.lastValue = Number.NaN;
  turns.area = 0;
  turns.markT = Number.NaN;
  turns.lastT = Number.NaN;
  turns.markArea = 0;
}

/** Takes a torque at its angle; true when a turn is complete. */
export function turnTo(turns: WholeTurns, angle: number, value: number): boolean {
  const before = turns.travel;
  turns.travel = before === before ? before + wrapped(angle - before + Math.PI) - Math.PI : angle;
  if (turns.began !== turns.began) turns.began = turns.travel;
  const gone = Math.abs(turns.travel - turns.began);
  if (gone <= turns.furthest && turns.lastValue === turns.lastValue) return false;
  const complete = advance(turns, turns.furthest, gone, value);
  turns.furthest = Math.max(turns.furthest, gone);
  turns.lastValue = value;
  return complete;
}

function advance(turns: WholeTurns, from: number, to: number, value: number): boolean {
  const { lastValue } = turns;
  if (lastValue !== lastValue || to <= leadIn) return false;
  const start = Math.max(from, leadIn);
  const end = nextBoundary(start);
  const between = (x: number) => lastValue + ((value - lastValue) * (x - from)) / (to - from);
  const stop = Math.min(to, end);
  turns.area += ((between(start) + between(stop)) / 2) * (stop - start);
  if (to < end) return false;
  keep(turns, turns.area / turn);
  turns.area = ((between(end) + value) / 2) * (to - end);
  return true;
}

const nextBoundary = (x: number): number => leadIn + turn * (Math.floor((x - leadIn) / turn + 1e-12) + 1);

/** Adds to the time between two marks. */
export function passTime(turns: WholeTurns, t: number, value: number): void {
  if (turns.markT === turns.markT) turns.markArea += ((value + turns.timeValue) / 2) * (t - turns.lastT);
  turns.lastT = t;
  turns.timeValue = value;
}

/** A mark, put to the last reading taken: once round since the last one. True when that completes a turn. */
export function markTurn(turns: WholeTurns): boolean {
  const { markT, lastT, markArea } = turns;
  const complete = markT === markT && lastT > markT;
  if (complete) keep(turns, markArea / (lastT - markT));
  turns.markT = lastT;
  turns.markArea = 0;
  return complete;
}

function keep(turns: WholeTurns, mean: number): void {
  if (turns.means.length < most) turns.means = [...turns.means, { mean, pull: turns.pulls }];
}
