import type { Side } from './measured.ts';
import type { Turn } from './turns.ts';

/**
 * The corridor: between which two levels the stem moves while this tooth is rocked. Lifting the stem, setting it down
 * with another preload, a knocked base and a jump of the gauge's counter all show as leaving it.
 */
export interface Corridor {
  low: number;
  high: number;
  /** The side of the latest rest. */
  at: Side;
  /** Beyond the corridor by more than this is outside. */
  margin: number;
}

/** Outside, as a share of the corridor's width. A stem lifted off goes to the end of its travel, which is farther. */
const OUTSIDE = 0.45;
/** The same where rests of one side lie far apart: then a far rest is more likely than a lift. */
const OUTSIDE_ROUGH = 1.6;
/** Noise alone never goes this many standard deviations beyond a rest. */
const BEYOND_NOISE = 6;

export const widthOf = ({ low, high }: Readonly<Corridor>): number => high - low;

/** The corridor of two rests, the later one last. */
export function corridorOf(one: number, latest: number, noise: number): Corridor {
  const at = latest > one ? 'high' : 'low';
  const corridor: Corridor = { low: Math.min(one, latest), high: Math.max(one, latest), at, margin: 0 };
  setMargin(corridor, noise, false);
  return corridor;
}

/** `rough`: rests of one side so far differ by a large share of the width. */
export function setMargin(corridor: Corridor, noise: number, rough: boolean): void {
  const share = rough ? OUTSIDE_ROUGH : OUTSIDE;
  corridor.margin = Math.max(share * widthOf(corridor), BEYOND_NOISE * noise);
}

export const isOutside = ({ low, high, margin }: Readonly<Corridor>, value: number): boolean =>
  value < low - margin || value > high + margin;

/** What a list of turns shows once rocking has begun. */
export interface Rocking {
  /** The turns that are rests of rocks. */
  readonly rests: readonly Turn[];
  /** Those before: the hang, where the stem came down, where the gear happened to lie. None is a rest of a rock. */
  readonly earlier: readonly Turn[];
  /** The stem had been elsewhere. */
  readonly hung: boolean;
}

/** Has rocking begun? It has with two strokes of one size. */
export function rocking(turns: readonly Turn[], least: number): Rocking | undefined {
  const [before, there, back] = turns.slice(-3);
  if (before === undefined || there === undefined || back === undefined) return undefined;
  const stroke = Math.abs(back.level - there.level);
  if (stroke < least || Math.abs(back.level - before.level) > LIKE * stroke) return undefined;
  const low = Math.min(back.level, there.level) - OUT * stroke;
  const high = Math.max(back.level, there.level) + OUT * stroke;
  const outside = turns.findLastIndex(({ level }) => level < low || level > high);
  const lay = turns[outside + 1] ?? before;
  const left = turns.findIndex(({ level }, at) => at > outside + 1 && Math.abs(level - lay.level) > LEFT * stroke);
  const from = outside >= 0 && cameDownBefore(lay) ? outside + 1 : left;
  return { rests: turns.slice(from), earlier: turns.slice(0, from), hung: outside >= 0 };
}

/** The stem had come down and stood somewhere on the way to this turn: then the hand brought it here, and it is a rest. */
const cameDownBefore = ({ passed, still }: Turn): boolean => passed >= Math.max(CAME_DOWN, still / 3);

/** A slow lowering shows stills of three and four readings. */
const CAME_DOWN = 6;
/** Turns nearer than this to where the gear lay are still where it lay. */
const LEFT = 0.35;

/** Strokes that differ by less than this share are of one size. */
const LIKE = 0.45;
const OUT = 0.3;

/**
 * Adds a turn to a list in place. A turn no farther from the last one than `least` is the same place, cut in two by
 * noise; two turns of a stroke that is small beside both its neighbours are a hand that went back a little on its way,
 * or a rebound that stood still.
 */
export function addTurn(turns: Turn[], turn: Turn, least: number): void {
  const last = turns.at(-1);
  if (last !== undefined && Math.abs(turn.level - last.level) < least) {
    if (turn.readings > last.readings) turns[turns.length - 1] = turn;
    return;
  }
  turns.push(turn);
  dropSmallStroke(turns);
}

function dropSmallStroke(turns: Turn[]): void {
  const [first, second, third, fourth] = turns.slice(-4);
  if (first === undefined || second === undefined || third === undefined || fourth === undefined) return;
  const inner = Math.abs(third.level - second.level);
  const outer = Math.min(Math.abs(second.level - first.level), Math.abs(fourth.level - third.level));
  if (inner < SMALL * outer) turns.splice(-3, 2);
}

const SMALL = 0.3;
