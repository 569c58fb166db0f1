import { type Cusum, stepCusum } from '../cusum.ts';
import { middleOf, numberAt, sortFirst } from './order.ts';

/**
 * Stills: stretches in which the readings stand still within their noise. Every rest is a still; a stem that hangs
 * free, a hand that hesitates and a gear that lies between its stops are stills too. Which is which is decided later
 * (turns.ts), from where the stills lie to each other and not from the still itself.
 *
 * A still ends when a two-sided CUSUM of (reading − mean)/sd passes its threshold: two readings are enough for a
 * stroke, one wild reading is not. The readings that ended it are the stroke's and not its own. Level and scatter come from its settled part: the first quarter may still swing in, the last
 * readings may already leave.
 */
export interface Still {
  /** Mean of the settled part. */
  readonly level: number;
  /** Readings in the settled part. */
  readonly readings: number;
  /** Squares about a straight line through the settled part (readings − 2 degrees of freedom): its noise, creep set aside. */
  readonly squares: number;
  /** Readings in all. */
  readonly length: number;
  /** Number of its first and its last reading in the stream. */
  readonly from: number;
  readonly to: number;
  readonly from_t: number;
  readonly to_t: number;
  /** Middle of the settled part in time, s: the moment that its level stands for while something drifts. */
  readonly at_t: number;
  /** How long the settled part lasts, s. */
  readonly read_s: number;
  /** How far the settled part moved from its beginning to its end, by a straight line through it. */
  readonly creep: number;
  /** By how much its ends stand above its middle, by a parabola through the settled part. */
  readonly bow: number;
}

export interface StillFinder extends Cusum {
  readonly values: Float64Array;
  readonly times: Float64Array;
  readonly scratch: Float64Array;
  /** Readings never scatter by less: the display's rounding. */
  readonly least: number;
  /** Number of the next reading in the stream. */
  next: number;
  /** Number of the still's first reading. */
  from: number;
  mean: number;
}

/** Readings kept. A longer still is judged by its latest readings: the hand has settled by then. */
const KEPT = 256;
/** CUSUM in standard deviations (common practice: k about half the step looked for, h 4–5): here for steps of 1.5 and more. */
const SLACK = 0.75;
const THRESHOLD = 4.4;
/** One reading counts as this many standard deviations at most, so that a single wild one cannot end a still. */
const MOST_FOR_ONE = 3;
/** A reading farther than this from the mean is off it. */
const OFF = 2;
export const LEAST_READINGS = 3;
const SWINGS_IN = 0.25;
const LEAVES = 0.12;
/** A reading farther than this from the middle of the still does not move its level. */
const WILD = 3.5;

export const newStillFinder = (least: number): StillFinder => ({
  least,
  values: new Float64Array(KEPT),
  times: new Float64Array(KEPT),
  scratch: new Float64Array(KEPT),
  next: 0,
  from: 0,
  mean: 0,
  up: 0,
  down: 0,
});

const valueAt = (finder: StillFinder, index: number): number => numberAt(finder.values, index % KEPT);
const timeAt = (finder: StillFinder, index: number): number => numberAt(finder.times, index % KEPT);

/** Takes in one reading; gives the still that it ended, if it ended one. */
export function addReading(finder: StillFinder, t: number, value: number, sd: number): Still | undefined {
  const index = finder.next;
  finder.values[index % KEPT] = value;
  finder.times[index % KEPT] = t;
  finder.next += 1;
  const held = index - finder.from;
  if (held === 0) {
    beginAt(finder, index, sd);
    return undefined;
  }
  // The mean of few readings is itself uncertain; without this the first readings would part for nothing.
  const off = (value - finder.mean) / (sd * Math.sqrt(1 + 1 / held));
  const counted = off > MOST_FOR_ONE ? MOST_FOR_ONE : off < -MOST_FOR_ONE ? -MOST_FOR_ONE : off;
  stepCusum(finder, counted, SLACK);
  if (finder.up <= THRESHOLD && finder.down <= THRESHOLD) {
    finder.mean += (counted * sd) / (held + 1);
    return undefined;
  }
  const still = stillOf(finder, lastOf(finder, index, sd), sd);
  beginAt(finder, index, sd);
  return still;
}

/** The last reading of a still that has just ended: those after it lie off its mean, all to the side it left to. */
function lastOf(finder: StillFinder, index: number, sd: number): number {
  const side = finder.up > THRESHOLD ? 1 : -1;
  let last = index;
  while (last > finder.from && (valueAt(finder, last) - finder.mean) * side > OFF * sd) last -= 1;
  return last;
}

/** A new still, begun with the latest reading and those just before it that agree with it. */
function beginAt(finder: StillFinder, index: number, sd: number): void {
  const value = valueAt(finder, index);
  let from = index;
  let sum = value;
  const earliest = Math.max(finder.from, index - KEPT + 1);
  while (from > earliest && Math.abs(valueAt(finder, from - 1) - value) <= OFF * sd && index - from < 4) {
    from -= 1;
    sum += valueAt(finder, from);
  }
  finder.from = from;
  finder.mean = sum / (index - from + 1);
  finder.up = 0;
  finder.down = 0;
}

/** Ends the still that is going on (a gap, the end of the stream) and gives it, if it is one. */
export function endStill(finder: StillFinder, sd: number): Still | undefined {
  const still = finder.next > finder.from ? stillOf(finder, finder.next - 1, sd) : undefined;
  finder.from = finder.next;
  return still;
}

/** How many readings the still that is going on has so far. */
export const ongoingLength = (finder: StillFinder): number => finder.next - finder.from;

function stillOf(finder: StillFinder, last: number, sd: number): Still | undefined {
  const length = last - finder.from + 1;
  if (length < LEAST_READINGS) return undefined;
  const kept = Math.max(finder.from, finder.next - KEPT);
  const from = kept > finder.from ? kept : finder.from + Math.floor(SWINGS_IN * length);
  const to = last - Math.ceil(LEAVES * Math.min(length - LEAST_READINGS, KEPT));
  const settled = settledPart(finder, from, to, sd);
  // A stroke to and fro may cancel out in the sum; its readings do not stand together.
  const least = length === LEAST_READINGS ? LEAST_READINGS : Math.max(2, (to - from + 1) / 2);
  if (settled.readings < least) return undefined;
  return {
    ...settled,
    length,
    from: finder.from,
    to: last,
    from_t: timeAt(finder, kept),
    to_t: timeAt(finder, last),
    at_t: (timeAt(finder, from) + timeAt(finder, to)) / 2,
    read_s: timeAt(finder, to) - timeAt(finder, from),
  };
}

function settledPart(
  finder: StillFinder,
  from: number,
  to: number,
  sd: number,
): Pick<Still, 'level' | 'readings' | 'squares' | 'creep' | 'bow'> {
  const centre = medianBetween(finder, from, to);
  const wild = wildBeyond(finder, from, to, centre, sd);
  const middle = (from + to) / 2;
  // Mean of the squared distances of to − from + 1 numbers in a row from their middle.
  const usual = ((to - from + 1) ** 2 - 1) / 12;
  let bend = 0;
  let bends = 0;
  let readings = 0;
  let sum = 0;
  let sumSquares = 0;
  let tilt = 0;
  let spread = 0;
  for (let index = from; index <= to; index += 1) {
    const off = valueAt(finder, index) - centre;
    if (Math.abs(off) > wild) continue;
    readings += 1;
    sum += off;
    sumSquares += off * off;
    tilt += (index - middle) * off;
    const square = (index - middle) ** 2;
    spread += square;
    bend += (square - usual) * off;
    bends += (square - usual) ** 2;
  }
  // Two readings far apart have their middle where no reading is.
  if (readings === 0) return { level: centre, readings: 1, squares: 0, creep: 0, bow: 0 };
  return {
    level: centre + sum / readings,
    readings,
    squares: Math.max(0, sumSquares - (sum * sum) / readings - (spread === 0 ? 0 : (tilt * tilt) / spread)),
    creep: spread === 0 ? 0 : (tilt / spread) * (to - from),
    bow: bends === 0 ? 0 : (bend / bends) * ((to - from) / 2) ** 2,
  };
}

/**
 * The readings' own spread bounds what is wild where it is the smaller one: early in a session the noise is not known
 * well, and the end of a bounce in a short rest would pass for noise.
 */
function wildBeyond(finder: StillFinder, from: number, to: number, centre: number, sd: number): number {
  const many = to - from + 1;
  const { scratch } = finder;
  for (let offset = 0; offset < many; offset += 1) scratch[offset] = Math.abs(valueAt(finder, from + offset) - centre);
  sortFirst(scratch, many);
  const own = OWN_SPREAD * numberAt(scratch, many >> 1);
  return WILD * Math.min(sd, Math.max(finder.least, own));
}

/** Median distance to standard deviation (1.4826), half as much again because few readings tell it badly. */
const OWN_SPREAD = 2.2;

function medianBetween(finder: StillFinder, from: number, to: number): number {
  const many = to - from + 1;
  for (let offset = 0; offset < many; offset += 1) finder.scratch[offset] = valueAt(finder, from + offset);
  sortFirst(finder.scratch, many);
  return middleOf(finder.scratch, many);
}
