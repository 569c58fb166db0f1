import { hearPace, isPaceDue, learnPace, newPace, type Pace } from './pace.ts';

/**
 * Gives readings back the moments at which their gauge sent them. What is known of a reading is when its bytes arrived: a
 * busy machine, or a link that hands bytes over in blocks, lets some wait and then delivers them in one heap. A gauge that
 * sends at a pace of its own fills a silence that was only waiting with a heap of just as many readings; a silence that no
 * heap makes up for was real, and stays.
 *
 * So a reading that is late is held until the heap behind it is over, and the heap is laid out at the pace. Everything else
 * passes as it came: readings in time, those of a gauge without a pace, and all of them until the pace is known. Nothing is
 * dropped, and what arrived in order stays in order. It runs before every measurement, live, in replay and on the command
 * line, so that all of them see the same times. Of fixed size.
 */
export interface Retimer<Item extends Timed> {
  readonly pace: Pace;
  lastArrival: number;
  /** When the last reading let through was sent. */
  lastSent: number;
  /** Readings, and presses among them, that wait for the end of a heap. */
  held: Item[];
  /** Readings among them. */
  late: number;
  /** Silences that no heap made up for, lately: a gauge that has many sends when it likes. */
  silences: number;
}

/** What passes through: `t` in seconds of the bench's monotonic time. A press has a pedal; its time is its own. */
interface Timed {
  readonly t: number;
  readonly pedal?: unknown;
}

export const newRetimer = <Item extends Timed>(): Retimer<Item> => ({
  pace: newPace(),
  lastArrival: Number.NaN,
  lastSent: Number.NaN,
  held: [],
  late: 0,
  silences: 0,
});

const nothing: readonly never[] = Object.freeze([]);

/** Later than this many paces a reading may be the first of a heap. */
const isLateFrom = 1.6;
/** Readings of a heap come closer together than this share of a pace. */
const heaped = 0.6;
/** A heap that has come this near to the pace again, in paces, has caught up. */
const caughtUp = 0.6;
/** Of a gauge silent for longer than this (s) no reading is on its way any more: a press need not wait for one. */
const longestWait_s = 2;
/** More are no heap. */
const mostHeld = 4096;

/**
 * Takes one item in the order of arrival; gives those whose time is known by now, in the order of their times. A press waits
 * only while readings that were sent before it may still be on their way.
 */
export function retime<Item extends Timed>(retimer: Retimer<Item>, item: Item): readonly Item[] {
  if (item.pedal !== undefined) return press(retimer, item);
  const before = retimer.lastArrival;
  const apart = item.t - before;
  retimer.lastArrival = item.t;
  if (apart < 0) return [...layOut(retimer, before), pass(retimer, item)];
  const { pace } = retimer;
  hearPace(pace, item.t);
  if (retimer.held.length === 0) return isLate(retimer, item.t) ? hold(retimer, item) : [pass(retimer, item)];
  if (retimer.late === 0 || apart < heaped * pace.seconds) return heap(retimer, item);
  const out = layOut(retimer, before);
  return isLate(retimer, item.t) ? (hold(retimer, item), out) : [...out, pass(retimer, item)];
}

/** What is still held when no more comes: the first readings of a heap whose rest nobody waited for. */
export const lastOfRetimer = <Item extends Timed>(retimer: Retimer<Item>): readonly Item[] =>
  layOut(retimer, Math.min(retimer.lastArrival, retimer.lastSent + retimer.late * retimer.pace.seconds));

function pass<Item extends Timed>(retimer: Retimer<Item>, reading: Item): Item {
  retimer.lastSent = reading.t;
  if (isPaceDue(retimer.pace)) {
    learnPace(retimer.pace);
    retimer.silences /= 2;
  }
  return reading;
}

const isLate = <Item extends Timed>({ pace, lastSent }: Retimer<Item>, t: number): boolean =>
  pace.seconds > 0 && t - lastSent > isLateFrom * pace.seconds;

function hold<Item extends Timed>(retimer: Retimer<Item>, reading: Item): readonly Item[] {
  retimer.held.push(reading);
  retimer.late += 1;
  return nothing;
}

/** One more reading of a heap. It is over when its readings, laid out from the last one before it, have come up to now. */
function heap<Item extends Timed>(retimer: Retimer<Item>, reading: Item): readonly Item[] {
  hold(retimer, reading);
  const { pace, lastSent, late } = retimer;
  const behind = reading.t - (lastSent + late * pace.seconds);
  return behind <= caughtUp * pace.seconds || late > mostHeld ? layOut(retimer, reading.t) : nothing;
}

function press<Item extends Timed>(retimer: Retimer<Item>, item: Item): readonly Item[] {
  const { pace, lastArrival, held, silences } = retimer;
  const since = item.t - lastArrival;
  const onTheirWay = pace.seconds > 0 && silences < 1 && since > isLateFrom * pace.seconds && since < longestWait_s;
  if (held.length === 0 && !onTheirWay) return [item];
  held.push(item);
  return nothing;
}

/** Lets go of what is held, the last of which arrived at `until`. */
function layOut<Item extends Timed>(retimer: Retimer<Item>, until: number): readonly Item[] {
  const { held, late } = retimer;
  if (held.length === 0) return nothing;
  retimer.held = [];
  retimer.late = 0;
  const sent = sentAt(retimer, late, until);
  let nth = 0;
  const items = held.map((item) => (item.pedal === undefined ? { ...item, t: sent(nth++) } : item));
  if (late > 0) retimer.lastSent = sent(late - 1);
  return nth === items.length ? items : items.toSorted((a, b) => a.t - b.t);
}

/**
 * When each of so many late readings was sent. As many as the silence was long: one pace after the other from the last one
 * before it. Fewer: the missing are lost, or were never sent, and the last of a heap was sent when it came at the latest, less
 * than a pace ago. More: the pace is a little off.
 */
function sentAt<Item extends Timed>(retimer: Retimer<Item>, many: number, until: number): (nth: number) => number {
  const { lastSent, pace } = retimer;
  const places = Math.floor((until - lastSent) / pace.seconds + 0.3);
  if (places - many >= 2) retimer.silences += 1;
  if (places > many) return (nth) => until - (many - 1 - nth) * pace.seconds;
  const step = places === many ? Math.min(pace.seconds, (until - lastSent) / many) : (until - lastSent) / many;
  return (nth) => lastSent + (nth + 1) * step;
}
