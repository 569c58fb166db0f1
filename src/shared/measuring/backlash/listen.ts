import { seconds } from '../../basics/quantity.ts';
import type { Reading } from '../reading.ts';
import { isOutside, widthOf, type Corridor } from './corridor.ts';
import { takeLoose, takeSmall } from './landing.ts';
import { isWeak } from './limits.ts';
import { hear, learn, noiseOf } from './noise.ts';
import { isFresh } from './repeats.ts';
import { seeStep } from './shownStep.ts';
import { unitsApart } from './scale.ts';
import { leastStrokeNow, now, stationNumber, type BacklashCapture } from './state.ts';
import { refuse, renewMargin, takeLonger, takeRest, tellRest } from './stations.ts';
import { addReading, endStill, LEAST_READINGS, ongoingLength, type Still } from './stills.ts';
import { restartSwings, swing } from './swings.ts';
import { goesOn, newWild, sifted } from './wild.ts';
import { addStill, endHold, goOnFrom, leaving, restartTurns, type Turn } from './turns.ts';

/** One reading after the other: through noise, stills and turns to the tooth, and off it. */

/** Readings heard before the first is judged, so that it is known how noisy they are. */
const HEARD_FIRST = 8;

export function read(capture: BacklashCapture, reading: Reading): void {
  const lasted = reading.t - capture.last_t;
  if (isGap(capture, lasted)) breakOff(capture, reading, lasted);
  capture.last_t = reading.t;
  if (!isFresh(capture.repeats, reading.value, capture.interval)) return;
  hear(capture.noise, reading.value);
  seeStep(capture.shownStep, reading.value);
  if (capture.held === undefined) return judge(capture, reading.t, reading.value);
  capture.held.push(reading);
  if (capture.held.length >= HEARD_FIRST) judgeHeld(capture);
}

function judgeHeld(capture: BacklashCapture): void {
  const { held } = capture;
  capture.held = undefined;
  for (const { t, value } of held ?? []) judge(capture, t, value);
}

/** Longer than this many usual intervals, and long enough to hide the quickest rest, is a gap. */
const INTERVALS = 6;
const SHORTEST_GAP_s = 0.6;

function isGap(capture: BacklashCapture, lasted: number): boolean {
  if (!(lasted < Infinity) || lasted <= 0) return false;
  const { interval } = capture;
  if (interval > 0 && lasted > Math.max(INTERVALS * interval, SHORTEST_GAP_s)) return true;
  const bounded = interval === 0 ? lasted : Math.min(2 * interval, lasted);
  capture.interval = interval === 0 ? lasted : interval + 0.1 * (bounded - interval);
  return false;
}

function breakOff(capture: BacklashCapture, reading: Reading, lasted: number): void {
  capture.said.push({ kind: 'gap', station: stationNumber(capture), t: reading.t, lasted: seconds(lasted) });
  leaveTooth(capture);
  if (capture.corridor === undefined && capture.loose.length > 0) capture.gapBefore = true;
  goAway(capture, reading.value, 'gap');
}

/** Judges a reading, or holds it back, or judges it together with those that were held back until it came. */
function judge(capture: BacklashCapture, t: number, value: number): void {
  const { corridor, interval, noise, wild } = capture;
  if (goesOn(wild, value, corridor, noiseOf(noise))) return take(capture, t, value);
  for (const reading of sifted(wild, { t, value }, { corridor, interval })) take(capture, reading.t, reading.value);
}

function take(capture: BacklashCapture, t: number, value: number): void {
  const { corridor, away } = capture;
  if (corridor !== undefined && isOutside(corridor, value)) {
    capture.said.push({ kind: 'lifted', station: stationNumber(capture), t: now(capture) });
    goAway(capture, value, 'outside');
  } else if (away !== undefined) {
    if (value < away.lowest) away.lowest = value;
    if (value > away.highest) away.highest = value;
  }
  const sd = noiseOf(capture.noise);
  const still = addReading(capture.stills, t, value, sd);
  if (still !== undefined) takeStill(capture, still, sd);
  // While something stands still again, what it is decides whether the place before was a turn.
  const least = leastStrokeNow(capture);
  swing(capture.swings, value, 2 * least);
  const isStill = ongoingLength(capture.stills) > LEAST_READINGS;
  const turn = leaving(capture.turns, capture.stills.next, value, isStill ? Infinity : least / 2);
  if (turn !== undefined) takeTurn(capture, turn);
  capture.last = value;
  cue(capture);
}

/** A shorter still may hold the end of a bounce, which is not noise. */
const LEARN_FROM = 4;

function takeStill(capture: BacklashCapture, still: Still, sd: number): void {
  if (still.readings >= LEARN_FROM) learn(capture.noise, still.squares, still.readings - 2);
  const turn = addStill(capture.turns, still, sd, capture.corridor === undefined ? 0 : widthOf(capture.corridor));
  if (turn !== undefined) takeTurn(capture, turn);
}

function takeTurn(capture: BacklashCapture, turn: Turn): void {
  if (capture.corridor === undefined) takeLoose(capture, turn);
  else takeAtTooth(capture, capture.corridor, turn);
}

/** A stroke shorter than this share of the corridor is a bounce or a hand that changed its mind. */
const WHOLE_STROKE = 0.35;

function takeAtTooth(capture: BacklashCapture, corridor: Corridor, turn: Turn): void {
  const stroke = turn.level - corridor[corridor.at];
  if (Math.abs(stroke) < WHOLE_STROKE * widthOf(corridor)) return takeShort(capture, corridor, turn);
  const side = stroke > 0 ? 'high' : 'low';
  if (side === corridor.at) return takeLonger(capture, turn);
  capture.tiny = 0;
  capture.loose = [];
  corridor[side] = turn.level;
  corridor.at = side;
  takeRest(capture, turn, side);
  renewMargin(capture);
}

/** Three strokes in a row of one 25th: the gauge went from millimetres to inches where zero is. */
const TINY_IN_A_ROW = 3;

function takeShort(capture: BacklashCapture, corridor: Corridor, turn: Turn): void {
  takeLonger(capture, turn);
  const from = capture.loose.at(-1)?.level ?? corridor[corridor.at];
  const size = Math.abs(turn.level - from);
  // What is hardly larger than noise may be the gauge wandering, and says nothing of its unit.
  const isTiny = unitsApart(size, widthOf(corridor)) && !isWeak(size, noiseOf(capture.noise));
  capture.tiny = isTiny ? capture.tiny + 1 : 0;
  if (capture.tiny >= TINY_IN_A_ROW && capture.station !== undefined) refuse(capture, capture.station, 'unit-jump');
  else takeSmall(capture, turn);
}

/** Readings at rest after which a rest is told of while it is still held. */
const CUE_AFTER = 5;

/** Tells a rest while the hand still holds it, so that the technician knows when to go back. */
function cue(capture: BacklashCapture): void {
  const { corridor, station } = capture;
  if (corridor === undefined || station === undefined || capture.cued !== undefined) return;
  const length = ongoingLength(capture.stills);
  if (length < CUE_AFTER) return;
  const level = capture.stills.mean;
  const side = corridor.at === 'high' ? 'low' : 'high';
  if (Math.abs(level - corridor[side]) > 0.25 * widthOf(corridor)) return;
  tellRest(capture, station, side, level, length);
}

/** Ends what is going on at this tooth: the last rest is one even if nothing follows it there. */
export function leaveTooth(capture: BacklashCapture): void {
  judgeHeld(capture);
  // What nobody bore out is left out: one reading is no lift, and no rest either.
  capture.wild = newWild();
  const sd = noiseOf(capture.noise);
  const still = endStill(capture.stills, sd);
  if (still !== undefined && !isLifting(capture.corridor, still)) takeStill(capture, still, sd);
  const turn = endHold(capture.turns);
  if (turn !== undefined) takeTurn(capture, turn);
}

/** The first piece of a slow lift, before it has left the corridor. */
const isLifting = (corridor: Corridor | undefined, { level }: Still): boolean =>
  corridor !== undefined &&
  (level < corridor.low - BARELY * widthOf(corridor) || level > corridor.high + BARELY * widthOf(corridor));

const BARELY = 0.15;

function goAway(capture: BacklashCapture, value: number, because: 'outside' | 'gap'): void {
  leaveTooth(capture);
  const corridor = capture.corridor ?? capture.away?.corridor;
  if (because === 'outside' && corridor !== undefined)
    goOnFrom(capture.turns, corridor[corridor.at], value < corridor.low ? -1 : 1);
  else restartTurns(capture.turns);
  if (capture.station !== undefined && capture.away === undefined) capture.station.strokes += capture.swings.count;
  restartSwings(capture.swings);
  capture.loose = [];
  capture.corridor = undefined;
  capture.cued = undefined;
  capture.tiny = 0;
  if (corridor === undefined) return;
  const { away } = capture;
  const lowest = Math.min(value, away?.lowest ?? value);
  const highest = Math.max(value, away?.highest ?? value);
  capture.away = { because, corridor: { ...corridor }, from: capture.last, to: value, lowest, highest };
}
