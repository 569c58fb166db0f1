import type { Aim, Box, Stretch } from './aim.ts';
import type { Axle } from './guess.ts';
import type { Side } from './input.ts';
import type { Marks } from './misfit.ts';
import type { OwnPlace } from './ownPlace.ts';
import type { QuickMark } from './quickFlank.ts';
import { asRead, backlashAt, markAt, type Place, type Sight } from './sight.ts';

/** A figure with its spread over all axles that explain the readings. */
export interface Figure {
  readonly mean: number;
  readonly sd: number;
}

/** What may be expected at a place. */
export interface Outlook {
  readonly place: Place;
  /** Chance of being right there, 0…1. */
  readonly chance: number;
  /** For each axle drawn: how right drive and backlash are, and whether the coast mark has a hard edge. */
  readonly each: readonly { readonly worth: number; readonly hard: boolean }[];
  readonly backlash: Figure;
  readonly marks: Readonly<Record<Side, { readonly heel: Figure; readonly crown: Figure }>>;
  /** The same with limits so soft that the way towards a right place shows from far off, 0…1. */
  readonly near: number;
  /** As softly, whether the drive mark is at its height alone: depth is set before the place along the face. */
  readonly height: number;
  /** Chance that every station is inside the backlash window. */
  readonly inWindow: number;
  /** Chance that drive and backlash are right, whatever coast does. */
  readonly driveRight: number;
  /** Share of axles whose coast mark would have a hard edge there. */
  readonly coastHard: number;
}

/** How sharply a limit counts: the model's own doubt, so that a place just inside is worth less than one well inside. */
const soft = { crown: 0.02, heel: 0.026, backlash_mm: 0.004 } as const;
/**
 * How much of the way the model may be off by beyond what it knows to be unsure of: a share of what a mark moves, and of
 * the millimetres moved for a backlash. Found on axles of another truth (docs/plan.md): marks that an edge cut off.
 */
const ofTheWay = { mark: 0.05, backlash: 0.03 } as const;
/** How much softer the limits of marks are for the way towards a right place. */
const wayOff = 4;
/** What a hard edge on the coast side takes off while nobody knows whether it can be avoided. */
export const coastShare = 0.5;
/** Less than this share of the film left at an edge makes it hard. */
const hardGap = 0.5;

/** The likeliest, the spread and the chance at one place, over all the axles drawn. */
export function outlookAt(sight: Sight, axles: readonly Axle[], aim: Aim, place: Place): Outlook {
  const seen = axles.map((axle) => seenAt(sight, axle, place));
  const backlashSoft = Math.hypot(soft.backlash_mm, ofTheWay.backlash * moved(aim, place));
  const how: Softness = { blur: 1, ofTheWay: ofTheWay.mark, backlash_mm: backlashSoft };
  const each = seen.map((one) => ({
    worth: worthOf(one, aim, how),
    hard: aim.coast === undefined && hasHardEdge(one.marks),
  }));
  const markFigures = (side: Side) => ({
    heel: offByWay(figure(seen.map(({ marks }) => marks[side].heel)), aim.from[side].heel),
    crown: offByWay(figure(seen.map(({ marks }) => marks[side].crown)), aim.from[side].crown),
  });
  return {
    place,
    chance: mean(each.map(({ worth, hard }) => worth * (hard ? 1 - coastShare : 1))),
    each,
    backlash: wider(figure(seen.map(({ backlash }) => backlash)), ofTheWay.backlash * moved(aim, place)),
    marks: { drive: markFigures('drive'), coast: markFigures('coast') },
    near: mean(seen.map((one) => worthOf(one, aim, { ...how, blur: wayOff }))),
    height: mean(seen.map(({ marks }) => inside(marks.drive.crown, aim.drive.crown, soft.crown * wayOff))),
    inWindow: mean(seen.map(({ backlash: read }) => inside(read, aim.backlash, backlashSoft))),
    driveRight: mean(each.map(({ worth }) => worth)),
    coastHard: mean(each.map(({ hard }) => (hard ? 1 : 0))),
  };
}

export interface Seen {
  readonly marks: Marks;
  readonly backlash: number;
}

export function seenAt(sight: Sight, axle: Axle, place: Place): Seen {
  const mark = (side: Side): QuickMark => asRead(markAt(axle, side, place), axle);
  const marks = { drive: mark('drive'), coast: mark('coast') };
  return { marks, backlash: backlashAt(sight, axle, place, marks.drive.turn + marks.coast.turn) };
}

const moved = ({ from }: Aim, place: Place): number =>
  Math.hypot(place.pinionOut - from.place.pinionOut, place.ringAway - from.place.ringAway);
const wider = ({ mean: middle, sd }: Figure, by: number): Figure => ({ mean: middle, sd: Math.hypot(sd, by) });
const offByWay = (told: Figure, from: number): Figure => wider(told, ofTheWay.mark * Math.abs(told.mean - from));

/** How sharply the limits count. */
interface Softness {
  /** Widens the limits of marks: far from any right place the way towards one must still show. */
  readonly blur: number;
  /** What the model may be off by, as a share of what a mark moves. */
  readonly ofTheWay: number;
  readonly backlash_mm: number;
}

/** As sharp as the model is about a single axle. */
export const sharply = (blur = 1): Softness => ({
  blur,
  ofTheWay: 0,
  backlash_mm: soft.backlash_mm,
});

/** How right a place is for one axle, 0…1. */
export function worthOf({ marks, backlash }: Seen, aim: Aim, how: Softness): number {
  const place = (side: Side, box: Box): number => {
    const by = (along: 'heel' | 'crown'): number =>
      Math.hypot(soft[along] * how.blur, how.ofTheWay * (marks[side][along] - aim.from[side][along]));
    const height = inside(marks[side].crown, box.crown, by('crown'));
    return height * inside(marks[side].heel, box.heel, by('heel'));
  };
  const coast = aim.coast === undefined ? 1 : place('coast', aim.coast);
  return place('drive', aim.drive) * coast * inside(backlash, aim.backlash, how.backlash_mm);
}

/**
 * The same places with their chances once it is known what else there is: for each axle a hard coast edge counts
 * against a place only as far as another place with drive right would avoid it.
 * @param own what each axle's own right place is worth, in the order of the axles.
 */
export function weighedTogether(outlooks: readonly Outlook[], own: readonly OwnPlace[]): readonly Outlook[] {
  const avoidable = best(
    outlooks,
    own.map(({ worthFree }) => worthFree),
    ({ worth, hard }) => (hard ? 0 : worth),
  );
  return outlooks.map((outlook) => ({
    ...outlook,
    chance: mean(outlook.each.map(({ worth, hard }, axle) => worth * (hard ? 1 - (avoidable[axle] ?? 0) : 1))),
  }));
}

/** Share of axles that any of these places, or their own, could put right. */
export const possibleAmong = (outlooks: readonly Outlook[], own: readonly OwnPlace[]): number =>
  mean(
    best(
      outlooks,
      own.map(({ worth }) => worth),
      ({ worth }) => worth,
    ),
  );

/** For each axle the most that any place is worth. */
const best = (
  outlooks: readonly Outlook[],
  own: readonly number[],
  of: (one: Outlook['each'][number]) => number,
): number[] =>
  own.map((atOwn, axle) =>
    outlooks.reduce((most, { each }) => Math.max(most, of(each[axle] ?? { worth: 0, hard: true })), atOwn),
  );

export const hasHardEdge = (marks: Marks): boolean => Math.min(...marks.coast.edgeGaps) < hardGap;

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
