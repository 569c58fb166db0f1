import type { Aim, Box, Stretch } from './aim.ts';
import type { Axle } from './guess.ts';
import type { Side } from './input.ts';
import type { Marks } from './misfit.ts';
import { backlashAt, markAt, type Place, type Sight } from './sight.ts';

/** A figure with its spread over all axles that explain the readings. */
export interface Figure {
  readonly mean: number;
  readonly sd: number;
}

/** What may be expected at a place. */
export interface Outlook {
  readonly place: Place;
  /** Chance of being right there, 0…1, and for each axle drawn. */
  readonly chance: number;
  readonly each: readonly number[];
  readonly backlash: Figure;
  readonly marks: Readonly<Record<Side, { readonly heel: Figure; readonly crown: Figure }>>;
  /** Share of axles whose coast mark would have a hard edge there. */
  readonly coastHard: number;
}

/** How sharply a limit counts: the model's own doubt, so that a place just inside is worth less than one well inside. */
const soft = { crown: 0.02, heel: 0.026, backlash_mm: 0.004 } as const;
/** What an avoidable hard edge on the coast side takes off: drive outranks coast, so never all. */
const coastShare = 0.5;
/** Less than this share of the film left at an edge makes it hard. */
const hardGap = 0.5;

/** The likeliest, the spread and the chance at one place, over all the axles drawn. */
export function outlookAt(sight: Sight, axles: readonly Axle[], aim: Aim, place: Place): Outlook {
  const seen = axles.map((axle) => seenAt(sight, axle, place));
  const each = seen.map((one) => worthOf(one, aim, sight.lengthwise, 1));
  const markFigures = (side: Side) => ({
    heel: figure(seen.map(({ marks }) => marks[side].heel)),
    crown: figure(seen.map(({ marks }) => marks[side].crown)),
  });
  return {
    place,
    chance: mean(each),
    each,
    backlash: figure(seen.map(({ backlash }) => backlash)),
    marks: { drive: markFigures('drive'), coast: markFigures('coast') },
    coastHard: mean(seen.map(({ marks }) => (hasHardEdge(marks) ? 1 : 0))),
  };
}

export interface Seen {
  readonly marks: Marks;
  readonly backlash: number;
}

export function seenAt(sight: Sight, axle: Axle, place: Place): Seen {
  const marks = { drive: markAt(sight, axle, 'drive', place), coast: markAt(sight, axle, 'coast', place) };
  return { marks, backlash: backlashAt(sight, axle, place, marks.drive.turn + marks.coast.turn) };
}

/**
 * How right a place is for one axle, 0…1.
 * @param blur widens the limits' softness: far from any right place the way towards one must still show.
 */
export function worthOf({ marks, backlash }: Seen, aim: Aim, lengthwise: boolean, blur: number): number {
  const place = (side: Side, box: Box): number =>
    inside(marks[side].crown, box.crown, soft.crown * blur) *
    (lengthwise ? inside(marks[side].heel, box.heel, soft.heel * blur) : 1);
  const coast = aim.coast === undefined ? 1 - (hasHardEdge(marks) ? coastShare : 0) : place('coast', aim.coast);
  const nearness =
    aim.recorded === undefined ? 1 : 1 / (1 + (4 * Math.abs(backlash - aim.recorded)) / width(aim.backlash));
  return place('drive', aim.drive) * coast * nearness * inside(backlash, aim.backlash, soft.backlash_mm);
}

const width = ([low, high]: Stretch): number => Math.max(0.01, high - low);
const hasHardEdge = (marks: Marks): boolean => Math.min(...marks.coast.edgeGaps) < hardGap;

/** 1 well inside a stretch, 0 well outside, a smooth step of `softness` at its ends. */
function inside(value: number, [low, high]: Stretch, softness: number): number {
  const step = (beyond: number): number => 1 / (1 + Math.exp((-1.7 * beyond) / softness));
  return step(value - low) * step(high - value);
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function figure(values: readonly number[]): Figure {
  const middle = mean(values);
  return { mean: middle, sd: Math.sqrt(mean(values.map((value) => (value - middle) ** 2))) };
}
