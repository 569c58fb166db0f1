import { corridorOf, addTurn, isOutside, rocking, widthOf, type Corridor, type Rocking } from './corridor.ts';
import { mean, sd } from '../../basics/statistics.ts';
import { isWeak } from './limits.ts';
import type { Side } from './measured.ts';
import { noiseOf } from './noise.ts';
import { LEAST_ROCKS } from './rule.ts';
import { rocksOf, valuesOf } from './rocks.ts';
import { jumped, unitsApart } from './scale.ts';
import { leastStrokeNow, now, stationNumber, type Away, type BacklashCapture } from './state.ts';
import { beginStation, closeStation, mark, refuse, refuseUnrocked, renewMargin, takeRest } from './stations.ts';
import { whyRefused } from './sentences.ts';
import type { Station } from './station.ts';
import { touchedOnly } from './touches.ts';
import type { Turn } from './turns.ts';

/**
 * Setting down: what it means that rocking has begun (again) between two levels. It is a new tooth only if the stem
 * hung free in between; else it is the old one, come back or shifted.
 */
export function takeLoose(capture: BacklashCapture, turn: Turn): void {
  const noise = noiseOf(capture.noise);
  const found = addLoose(capture, turn);
  const [there, back] = capture.loose.slice(-2);
  if (found === undefined || there === undefined || back === undefined) return;
  const corridor = corridorOf(there.level, back.level, noise);
  place(capture, corridor, noise, found);
  capture.corridor = corridor;
  const { station } = capture;
  // After a lift only where the stem came down is of this tooth; else all of it may be.
  if (station?.rests.length === 0) {
    station.earlier = capture.away === undefined ? found.earlier : found.earlier.slice(-1);
  }
  for (const rest of found.rests) takeRest(capture, rest, sideIn(corridor, rest));
  capture.loose = [];
  capture.away = undefined;
  capture.gapBefore = false;
  capture.turns.touches.length = 0;
  renewMargin(capture);
}

function addLoose(capture: BacklashCapture, turn: Turn): Rocking | undefined {
  const { loose, away } = capture;
  const least = leastStrokeNow(capture);
  addTurn(loose, turn, least);
  if (loose.length > MOST_LOOSE) loose.shift();
  // The first turn after a lift is the hang: a stroke from it and one back say nothing about rocking.
  return away?.because === 'outside' && loose.length < 4 ? undefined : rocking(loose, least);
}

/**
 * Takes in a turn that is too small a stroke for the corridor. If such strokes turn out to be the rocking, what had
 * been taken for it was the stem being lifted and set down: that station is forgotten and the true one begun.
 */
export function takeSmall(capture: BacklashCapture, turn: Turn): void {
  const noise = noiseOf(capture.noise);
  const found = addLoose(capture, turn);
  const [there, back] = capture.loose.slice(-2);
  if (found === undefined || there === undefined || back === undefined || !wasLifting(capture.station)) return;
  if (isWeak(Math.abs(back.level - there.level), noise)) return;
  capture.station = undefined;
  capture.corridor = undefined;
  capture.loose.pop();
  takeLoose(capture, turn);
}

/** Lifts differ from each other as no rocks do. */
function wasLifting(station: Station | undefined): boolean {
  if (station === undefined) return true;
  const values = valuesOf(rocksOf(station.rests));
  return station.measured === undefined && (values.length < 2 || sd(values) > LIFTS_DIFFER * mean(values));
}

const LIFTS_DIFFER = 0.03;

const MOST_LOOSE = 8;

const sideIn = ({ low, high }: Corridor, { level }: Turn): Side => (level > (low + high) / 2 ? 'high' : 'low');

/** Decides to which station the new corridor belongs, and has that one at work when it returns. */
function place(capture: BacklashCapture, corridor: Corridor, noise: number, found: Rocking): void {
  const { station, away, settings } = capture;
  if (away === undefined || station === undefined) {
    return begin(capture, corridor, found.hung, capture.gapBefore);
  }
  const young =
    isYoung(station) && oneStopStays(away.corridor, corridor, noise) && !reached(away, capture.hangs, noise);
  const unsure = isUnsure(station, away.corridor, noise);
  if (!young && !unsure && wasLifted(capture, away, corridor, noise)) {
    noteHang(capture, corridor, away);
    if (settings.nextBy === 'press') return stayAt(capture, station);
    return next(capture, corridor, found.hung);
  }
  if (unsure || wasNoRocking(station, away, corridor)) {
    station.rests.length = 0;
    station.told = 0;
  } else if (unitsApart(widthOf(away.corridor), widthOf(corridor))) refuse(capture, station, 'unit-jump');
  else if (
    !fits(away.corridor, corridor, noise) &&
    !(isYoung(station) && oneStopStays(away.corridor, corridor, noise))
  ) {
    return shifted(capture, station, away, corridor);
  }
  stayAt(capture, station);
}

/** `hung`: the stem was lifted since, so what happened before is not this station's. `gap`: readings are missing here. */
function begin(capture: BacklashCapture, corridor: Corridor, hung: boolean, gap = false): void {
  if (hung && touchedOnly(capture.turns.touches, widthOf(corridor))) {
    refuseUnrocked(capture, 'one-sided', whyRefused['one-sided']);
  }
  const station = beginStation(capture, gap ? ['gap'] : []);
  if (station !== undefined) capture.said.push({ kind: 'landed', station: station.number, t: now(capture) });
}

function next(capture: BacklashCapture, corridor: Corridor, hung: boolean, gap = false): void {
  closeStation(capture);
  begin(capture, corridor, hung, gap);
}

/** The same tooth, but what lies before and after does not make a rock together. */
function stayAt(capture: BacklashCapture, station: Station): void {
  station.stretch += 1;
  if (capture.away?.because === 'gap') mark(capture, station, 'gap');
  capture.said.push({ kind: 'landed', station: stationNumber(capture), t: now(capture) });
}

/** Another place without a hang: across a gap nobody knows what happened; else something moved or miscounted. */
function shifted(capture: BacklashCapture, station: Station, away: Away, corridor: Corridor): void {
  if (away.because === 'gap' && capture.settings.nextBy === 'itself') {
    mark(capture, station, 'gap');
    return next(capture, corridor, false, true);
  }
  if (away.because === 'gap') refuse(capture, station, 'gap');
  else if (jumped(away, corridor)) refuse(capture, station, 'unit-jump');
  else if (station.measured === undefined) refuse(capture, station, 'drift');
  else mark(capture, station, 'drift');
  stayAt(capture, station);
}

/** The readings went beyond both corridors: the stem was off the tooth, at the free end of its travel. */
function hung(away: Away, corridor: Corridor, noise: number): boolean {
  const reach = Math.max(HUNG * Math.max(widthOf(away.corridor), widthOf(corridor)), HUNG_NOISE * noise);
  return (
    away.lowest < Math.min(away.corridor.low, corridor.low) - reach ||
    away.highest > Math.max(away.corridor.high, corridor.high) + reach
  );
}

const HUNG = 0.3;
const HUNG_NOISE = 4.5;

const wasLifted = (capture: BacklashCapture, away: Away, corridor: Corridor, noise: number): boolean =>
  hung(away, corridor, noise) ||
  reached(away, capture.hangs, noise) ||
  (farOff(away, corridor) && !hasHardlyRocked(capture.station));

/**
 * So far from the old corridor, and not in one jump: nothing knocks a base that far. The stem was lifted, and the new
 * tooth gives it so little preload that its rests reach to where it hangs, or the hang fell between two readings.
 */
function farOff(away: Away, corridor: Corridor): boolean {
  const shift = Math.abs(corridor.low + corridor.high - away.corridor.low - away.corridor.high) / 2;
  const isFar = shift > FAR_OFF * Math.max(widthOf(corridor), widthOf(away.corridor));
  return (
    isFar &&
    away.because === 'outside' &&
    !jumped(away, corridor) &&
    !unitsApart(widthOf(away.corridor), widthOf(corridor))
  );
}

const FAR_OFF = 4;

/** Where the stem hung: the first turn after leaving, if it lies beyond both corridors. */
function noteHang(capture: BacklashCapture, corridor: Corridor, away: Away): void {
  const [first] = capture.loose;
  if (first === undefined) return;
  const reach = HUNG * widthOf(corridor);
  const below = first.level < Math.min(corridor.low, away.corridor.low) - reach;
  const above = first.level > Math.max(corridor.high, away.corridor.high) + reach;
  if (below || above) capture.hangs = first.level;
}

const near = (one: number, other: number, width: number, noise: number): boolean =>
  Math.abs(one - other) <= Math.max(0.25 * width, 3 * noise);

const fits = (old: Readonly<Corridor>, corridor: Corridor, noise: number): boolean =>
  near(old.low, corridor.low, widthOf(old), noise) && near(old.high, corridor.high, widthOf(old), noise);

/** One stop where it was and the other elsewhere: uneven rocks at one tooth, before they have shown their pattern. */
const oneStopStays = (old: Readonly<Corridor>, corridor: Corridor, noise: number): boolean =>
  near(old.low, corridor.low, 0.2 * widthOf(old), noise) || near(old.high, corridor.high, 0.2 * widthOf(old), noise);

/**
 * A jolt, or a hand that takes hold or presses again at a stop: a stroke or two of another size before the rocking, within
 * what is rocked now, or at another place of it.
 */
function wasNoRocking(station: Station, away: Away, corridor: Corridor): boolean {
  const old = away.corridor;
  const ratio = widthOf(corridor) / widthOf(old);
  if (hasHardlyRocked(station)) return ratio > OTHER_SIZE || ratio < 1 / OTHER_SIZE || farOff(away, corridor);
  const isWithin = !isOutside({ ...corridor, margin: 0.1 * widthOf(corridor) }, (old.low + old.high) / 2);
  return station.measured === undefined && ratio > OTHER_SIZE && isWithin;
}

/** A few strokes hardly larger than noise: a gauge that wanders makes them while nobody rocks. */
const isUnsure = (station: Station, old: Readonly<Corridor>, noise: number): boolean =>
  station.measured === undefined && isYoung(station) && isWeak(widthOf(old), noise);

const hasHardlyRocked = (station: Station | undefined): boolean =>
  station !== undefined && station.measured === undefined && rocksOf(station.rests).length < 2;

const OTHER_SIZE = 2.5;

/** The stem went where it is known to hang free. */
const reached = ({ lowest, highest }: Away, hangs: number | undefined, noise: number): boolean =>
  hangs !== undefined && Math.min(Math.abs(lowest - hangs), Math.abs(highest - hangs)) <= HUNG_NOISE * noise;

const isYoung = (station: Station): boolean => rocksOf(station.rests).length < LEAST_ROCKS;
