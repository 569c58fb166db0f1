/**
 * Watches whether what a gauge shows ever falls. The torque of a turning shaft swings with every turn and with every pull of
 * the hand, and falls from the top of its start; the readings of a gauge that holds its highest value, or that has come to the
 * end of its range, only rise and then stand at their highest. The longest such stretch is kept. Of fixed size.
 */
export interface Unfallen {
  last: number;
  highest: number;
  /** Readings in all, and those that stood at the highest of all. */
  readings: number;
  atHighest: number;
  /** Since when nothing fell, and the readings since then. */
  fromT: number;
  n: number;
  /** The longest stretch that stood at the highest reading of all. */
  longest_s: number;
  longestN: number;
}

export const newUnfallen = (): Unfallen => ({
  last: Number.NaN,
  highest: Number.NEGATIVE_INFINITY,
  readings: 0,
  atHighest: 0,
  fromT: Number.NaN,
  n: 0,
  longest_s: 0,
  longestN: 0,
});

/** Takes in one reading of a pull: torque the way it is pulled. */
export function watchUnfallen(unfallen: Unfallen, t: number, torque: number): void {
  if (unfallen.n === 0 || torque < unfallen.last) {
    unfallen.fromT = t;
    unfallen.n = 0;
  }
  unfallen.n += 1;
  unfallen.readings += 1;
  unfallen.last = torque;
  if (torque > unfallen.highest) unfallen.atHighest = 0;
  if (torque >= unfallen.highest) unfallen.atHighest += 1;
  unfallen.highest = Math.max(unfallen.highest, torque);
  const stands_s = t - unfallen.fromT;
  if (torque < unfallen.highest || stands_s < unfallen.longest_s) return;
  unfallen.longest_s = stands_s;
  unfallen.longestN = unfallen.n;
}

/** Readings, seconds and share of the pull from which standing at the highest reading is no chance (own choice). */
const fewest = 12;
const shortest_s = 1;
const shareOfPull = 0.5;

/** Whether the gauge only rose and stood through half of a pull of so many seconds and more. */
export const hasNotFallen = ({ longest_s, longestN }: Unfallen, pull_s: number): boolean =>
  longestN >= fewest && longest_s >= Math.max(shortest_s, shareOfPull * pull_s);

/**
 * Whether the top of a pull looks cut off: a good share of its readings is one and the same highest number, though beneath it
 * they swing. The one top of a start is a reading or two; a display that can go no higher shows its end again and again.
 * @param swing largest minus smallest while turning, in steps of the display
 */
export const isCutOffAbove = ({ readings, atHighest }: Unfallen, swing: number): boolean =>
  swing >= swings_steps && atHighest >= fewest && atHighest >= shareAtTop * readings;

const swings_steps = 5;
/** The top step of a lobe of ten steps holds a seventh of its turn (derived from its parabola). */
const shareAtTop = 0.15;

/**
 * From so many steps of the display on a turning shaft makes it flicker: 2 % of its torque are half a step (own choice; hands
 * and bearings swing by more). Below it a gauge may be too coarse to show the swing.
 */
export const flickers_steps = 25;
