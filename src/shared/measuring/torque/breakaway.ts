import { wrapped } from '../../basics/harmonics.ts';
import { newPlateau, type Plateau, watchPlateau } from './plateau.ts';

/** A shaft breaks away within this time of the first force, or it is not turned by hand. */
export const breakawayWithin_s = 1.2;

/**
 * Watches for the top of a start. A start has no neighbours like itself, so that a wild reading is told from it only by how
 * the readings beside it climb and fall; each is looked at once two more have come. Of fixed size.
 */
export interface StartWatch {
  /** The last four readings and when the last two of them came; the newest is `d`. */
  a: number;
  b: number;
  c: number;
  d: number;
  bT: number;
  cT: number;
  dT: number;
  angle: number;
  n: number;
  /** The first top, as long as no later one stands well above it: that one is the turning shaft's own swing. */
  first: number;
  highest: number;
  /** The highest reading that was none of a wild one, and when it came. */
  most: number;
  mostT: number;
  /** How high the torque may have gone between two readings: on as steeply as it had just climbed. */
  between: number;
  /** A top that `first` was before a later one stood well above it. */
  earlier: number;
  readonly plateau: Plateau;
  /** Readings since the shaft has turned: tops of it are no more the start's. */
  turned: number;
}

/** @param restT when the gauge was last seen at rest; left out where it never was */
export const newStart = (restT?: number): StartWatch => ({
  a: 0,
  b: 0,
  c: 0,
  d: 0,
  bT: Number.NaN,
  cT: restT ?? Number.NaN,
  dT: restT ?? Number.NaN,
  angle: Number.NaN,
  // A rest is worth two readings at nought.
  n: restT === undefined ? 0 : 2,
  first: 0,
  highest: 0,
  most: 0,
  mostT: Number.NEGATIVE_INFINITY,
  between: 0,
  earlier: 0,
  plateau: newPlateau(),
  turned: 0,
});

/** A reading: seconds, torque from the zero the way it is pulled, angle of the shaft (not a number where it is not known). */
export interface Moment {
  readonly t: number;
  readonly value: number;
  readonly angle: number;
}

/** A later top has to stand this much above the first to be the start after all: the first was a hand that felt its way. */
const wellAbove = 1 / 0.85;
/** Once a shaft has gone this far it turns, rad. */
const turning = Math.PI / 12;

/** Takes one reading of the first moments. */
export function watchStart(start: StartWatch, { t, value, angle }: Moment, step: number): void {
  // The reading looked at is two behind the newest.
  if (start.turned > 2) return;
  if (start.angle !== start.angle) start.angle = angle;
  watchPlateau(start.plateau, value, step);
  const { a, b, c, d } = start;
  // `c` is looked at: two have come before it and two after.
  if (start.n >= 4 && !standsAlone({ a, b, c, d, e: value }, start.dT - start.bT, step)) {
    // A wild reading before it makes no climb.
    if (!standsAlone({ a, b: a, c: b, d: c, e: d }, start.dT - start.bT, step))
      start.between = Math.max(start.between, c + Math.max(0, c - b) * furtherOn(start));
    if (c > start.most) {
      start.most = c;
      start.mostT = start.cT;
    }
    if (c >= b && c >= d) noteTop(start, c);
  }
  if (start.turned > 0 || isFar(angle, start.angle)) start.turned += 1;
  start.a = b;
  start.b = c;
  start.c = d;
  start.d = value;
  start.bT = start.cT;
  start.cT = start.dT;
  start.dT = t;
  start.n += 1;
}

/** How much longer it was to the reading after `c` than from the one before it; as long at least, for nobody climbs quite evenly. */
const furtherOn = ({ bT, cT, dT }: StartWatch): number =>
  cT > bT ? Math.min(4, Math.max(1, (dT - cT) / (cT - bT))) : 1;

function noteTop(start: StartWatch, top: number): void {
  if (top > start.first * wellAbove) {
    start.earlier = start.first;
    start.first = top;
  }
  start.highest = Math.max(start.highest, top);
}

const isFar = (angle: number, from: number): boolean => Math.abs(wrapped(angle - from + Math.PI) - Math.PI) > turning;

/** Where readings come this close together a hand's start has several of them on its way up and down, s between one before and one after. */
const close_s = 0.2;

/** Five readings in a row. */
interface Five {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
}

/** Whether the middle one stands further out than its neighbours' own climb and fall explain. */
function standsAlone({ a, b, c, d, e }: Five, apart_s: number, step: number): boolean {
  const excess = c - Math.max(b, d);
  // A start leaves a rest on one side and a turning shaft on the other; a wild reading has its like on both.
  if (excess <= 8 * step || excess <= Math.abs(b - d)) return false;
  return apart_s < close_s ? excess > 2.5 * Math.max(Math.abs(b - a), Math.abs(e - d)) : excess > 2 * Math.max(d, e);
}

/** The top of a start. */
export interface Top {
  readonly peak: number;
  /** How much higher it may have been: between two readings, or where a later top is the start after all. */
  readonly above: number;
  /** How much lower: where the top before it may have been the start. */
  readonly below: number;
}

/** A top of less than this share of the one after it was a hand that felt its way. */
const feltItsWay = 0.6;

/**
 * The first top; where none was seen the highest reading: the shaft gave way between two. Undefined where nothing was read, or
 * the gauge came to its end before the start came to its top.
 */
export function topOf({ first, most, highest, between, earlier, plateau }: StartWatch): Top | undefined {
  const peak = first > 0 ? first : most;
  if (peak <= 0 || plateau.end >= peak) return undefined;
  return {
    peak,
    above: Math.max(peak, highest, between) - peak,
    below: first > 0 && earlier > feltItsWay * first ? first - earlier : 0,
  };
}

/** A hand that raises its force slowly takes up to this long, s, and no longer than that between two new heights. */
const slowest_s = 3;
const stillRising_s = 0.4;

/** Whether a reading at this time may still belong to the start of a pull that began then. */
export const isStarting = ({ mostT }: StartWatch, began: number, t: number): boolean =>
  t - began <= breakawayWithin_s || (t - began <= slowest_s && t - mostT <= stillRising_s);
