import { areAlike, joined } from './pieces.ts';
import type { Still } from './stills.ts';
import { addTouch, TOUCH } from './touches.ts';

/**
 * Turns: stills at which the movement turned round. A gear that is rocked stands still at a stop and then goes back;
 * a hand that hesitates stands still and goes on, so its still is passed by and forgotten. Every rest is a turn; the
 * hang of a lifted stem is one too, and is told from a rest by where it lies (corridor.ts).
 * What it shares with a still is that of its main still; its length, beginning and end are those of all its stills together.
 */
export interface Turn extends Still {
  /** Readings near it after its main still had ended, until the stroke left: many beside a short still are a slow letting go. */
  readonly lingers: number;
  /** Readings of its main still. */
  readonly still: number;
  /** Readings of the longest still passed on the way to it: it was not reached in one go from the turn before. */
  readonly passed: number;
  /** The longest other still of this hold, or passed on the way to it; none where it stood nowhere else. */
  readonly also: Still | undefined;
}

interface Hold {
  main: Still;
  first: Still;
  last: Still;
  length: number;
  /** Number of the latest reading that was still near it. */
  near: number;
  /** Length of the longest still passed on the way to it. */
  passed: number;
  also: Still | undefined;
}

export interface TurnFinder {
  previous: number | undefined;
  hold: Hold | undefined;
  /** Way the movement goes: +1 up, −1 down, 0 not known yet. */
  direction: -1 | 0 | 1;
  lastValue: number;
  /** How far the movement went, each time that it came back to a place without having stood still on the other side. */
  readonly touches: number[];
  /** Farthest the readings went from the hold since it ended. */
  lowest: number;
  highest: number;
}

/** Stills this close in the stream, in readings, are one hold that moved rather than two. */
const ADJOINING = 4;
/** A neighbour shorter than this share of the hold's main still is its swinging in or its leaving. */
const OF_WEIGHT = 0.35;
/** Adjoining stills nearer to each other than this share of the corridor are one hold that creeps. */
const ONE_PLACE = 0.3;
/** The stroke has not left yet while it is within this share of it. */
const NEAR = 0.3;
/** The stroke has truly left once it is this share of the way back. */
const HAS_LEFT = 0.5;

export const newTurnFinder = (): TurnFinder => ({
  previous: undefined,
  hold: undefined,
  direction: 0,
  lastValue: 0,
  touches: [],
  lowest: Infinity,
  highest: -Infinity,
});

/** Forgets where the movement came from: after a gap, and when a station is begun anew. */
export function restartTurns(finder: TurnFinder): void {
  Object.assign(finder, newTurnFinder());
}

/** As {@link restartTurns}, where it is known from where and which way the movement goes. */
export function goOnFrom(finder: TurnFinder, level: number, direction: -1 | 1): void {
  restartTurns(finder);
  finder.previous = level;
  finder.direction = direction;
}

/**
 * Looks at one reading after a hold has ended: once the stroke is half-way back, the hold was a turn. So a rock is
 * counted while the hand is on its way, and not only when it rests at the other stop.
 */
export function leaving(finder: TurnFinder, index: number, value: number, least: number): Turn | undefined {
  const { hold, previous } = finder;
  const pair = (value + finder.lastValue) / 2;
  finder.lastValue = value;
  if (pair < finder.lowest) finder.lowest = pair;
  if (pair > finder.highest) finder.highest = pair;
  if (hold === undefined || previous === undefined) return undefined;
  const stroke = hold.main.level - previous;
  const back = hold.main.level - pair;
  if (Math.abs(back) < NEAR * Math.abs(stroke)) hold.near = index;
  if (stroke * back <= 0 || Math.abs(back) < Math.max(least, HAS_LEFT * Math.abs(stroke))) return undefined;
  return confirmed(finder, hold);
}

/** Ends the hold that is going on, as when the stem is lifted off the last rest: it was a turn if a stroke led to it. */
export function endHold(finder: TurnFinder): Turn | undefined {
  const { hold } = finder;
  return hold === undefined || finder.previous === undefined ? undefined : confirmed(finder, hold);
}

function confirmed(finder: TurnFinder, hold: Hold): Turn {
  const { main } = hold;
  finder.previous = main.level;
  finder.hold = undefined;
  finder.direction = finder.direction === 1 ? -1 : 1;
  return {
    level: main.level,
    readings: main.readings,
    squares: main.squares,
    length: hold.length,
    from: hold.first.from,
    to: hold.last.to,
    from_t: hold.first.from_t,
    to_t: hold.last.to_t,
    at_t: main.at_t,
    read_s: main.read_s,
    bow: main.bow,
    creep: creepOf(hold),
    lingers: Math.max(0, hold.near - main.to),
    still: main.length,
    passed: hold.passed,
    also: hold.also,
  };
}

/** Movement of a hold: along its main still, or from its first to its last still where it broke up into several. */
function creepOf({ main, first, last }: Hold): number {
  const early = first.length >= OF_WEIGHT * main.length ? first : main;
  const late = last.length >= OF_WEIGHT * main.length ? last : main;
  const across = late.level - early.level;
  return Math.abs(across) > Math.abs(main.creep) ? across : main.creep;
}

/**
 * Takes in a still; gives the turn that it proves, if it proves one.
 * @param width of the corridor, 0 while it is not known: then a hold that moves cannot be told from a small stroke.
 */
export function addStill(finder: TurnFinder, still: Still, sd: number, width: number): Turn | undefined {
  const { hold } = finder;
  if (hold === undefined) {
    beginHold(finder, still, sd);
    return undefined;
  }
  if (staysAt(finder, hold, still, sd, width)) {
    stay(finder, hold, still, sd, width);
    return undefined;
  }
  const way = still.level > hold.main.level ? 1 : -1;
  if (finder.direction === way) {
    if (!isMereLeaving(hold, still, width)) replaceHold(finder, still, hold);
    return undefined;
  }
  if (finder.direction === 0) finder.direction = way === 1 ? -1 : 1;
  const turn = confirmed(finder, hold);
  replaceHold(finder, still);
  return turn;
}

/** A short piece right after a long still, farther the same way: a slow lift off the stop. */
const isMereLeaving = ({ last, main }: Hold, still: Still, width: number): boolean =>
  still.from - last.to <= ADJOINING &&
  still.length < OF_WEIGHT * main.length &&
  Math.abs(still.level - main.level) < HAS_LEFT * width;

function beginHold(finder: TurnFinder, still: Still, sd: number): void {
  const { previous } = finder;
  if (previous === undefined) return replaceHold(finder, still);
  const gone = (still.level - previous) * finder.direction;
  const least = apart(still, still, sd);
  if (gone > least) return replaceHold(finder, still);
  // Back at the place it had left: the other side was touched and not held.
  if (gone >= -least) {
    if (finder.highest - finder.lowest > FAR * sd) addTouch(finder.touches, finder.highest - finder.lowest);
  } else {
    // Beyond it: what had been left was not yet the stop.
    finder.direction = finder.direction === 1 ? -1 : 1;
    replaceHold(finder, still);
  }
}

/** @param before the hold that was passed on the way to it */
function replaceHold(finder: TurnFinder, still: Still, before?: Hold): void {
  const passed = before === undefined ? 0 : Math.max(before.passed, before.length);
  const also = before === undefined ? undefined : longer(before.also, before.main);
  finder.hold = { main: still, first: still, last: still, length: still.length, near: still.to, passed, also };
  finder.lowest = still.level;
  finder.highest = still.level;
}

/**
 * By how much two means must differ to be at two places: three standard errors, and never less than a piece that chance
 * cut out of one rest may lie beside it, which is more because chance chose it.
 */
const apart = (one: Still, two: Still, sd: number): number =>
  sd * Math.max(PIECE, 3 * Math.sqrt(1 / one.readings + 1 / two.readings));

const PIECE = 2.5;
/** An excursion of pairs of readings beyond this many standard deviations is none of noise's. */
const FAR = 6.5;

/**
 * At the same place, or so near and so soon that it is one hold: one that crept back from its stop, or one whose pieces lie
 * where a wandering gauge left them. Farther on is another place.
 */
function staysAt(finder: TurnFinder, hold: Hold, still: Still, sd: number, width: number): boolean {
  const on = still.level - hold.main.level;
  if (Math.abs(on) <= apart(hold.main, still, sd)) return true;
  if (still.from - hold.last.to > ADJOINING) return false;
  if (on * finder.direction > 0) return Math.abs(on) <= SAME_HOLD * width;
  return Math.abs(on) <= ONE_PLACE * width && still.length >= OF_WEIGHT * hold.main.length;
}

/** A hand that hesitates stops short of where it will rest by more than this share of the corridor. */
const SAME_HOLD = 0.03;

const longer = (one: Hold['also'], other: Still): Hold['also'] =>
  one === undefined || other.length > one.length ? other : one;

function stay(finder: TurnFinder, hold: Hold, still: Still, sd: number, width: number): void {
  const stroke = finder.previous === undefined ? 0 : Math.abs(hold.main.level - finder.previous);
  const touched = finder.highest - finder.lowest > Math.max(FAR * sd, TOUCH * stroke, TOUCH * width);
  if (touched) addTouch(finder.touches, finder.highest - finder.lowest);
  const adjoining = !touched && still.from - hold.last.to <= ADJOINING;
  const off = Math.abs(still.level - hold.main.level);
  const isPiece = off <= SAME_HOLD * width && areAlike(still.length, hold.main.length);
  if (adjoining && (off <= apart(hold.main, still, sd) || isPiece)) hold.main = joined(hold.main, still);
  else {
    const [main, also] = still.readings > hold.main.readings ? [still, hold.main] : [hold.main, still];
    hold.main = main;
    hold.also = longer(hold.also, also);
  }
  hold.last = still;
  hold.length += still.length;
  finder.lowest = hold.main.level;
  finder.highest = hold.main.level;
}
