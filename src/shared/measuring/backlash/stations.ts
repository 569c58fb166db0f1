import { mm } from '../../basics/quantity.ts';
import { isNone } from '../../basics/result.ts';
import { mean } from '../../basics/statistics.ts';
import { setMargin, widthOf } from './corridor.ts';
import { atAnEnd } from './faults.ts';
import type { Flag, Refusal, Side, StationMeasured } from './measured.ts';
import { SHAKES } from './limits.ts';
import { between } from './neighbours.ts';
import { noiseOf } from './noise.ts';
import { levelsOf, rocksOf, valuesOf } from './rocks.ts';
import { unitChanged, unitsApart } from './scale.ts';
import { onlyShakes } from './sentences.ts';
import { now, settingsSeen, type BacklashCapture } from './state.ts';
import {
  evidenceOf,
  flagged,
  keepLonger,
  keepRest,
  leave,
  newStation,
  refused,
  review,
  type Station,
} from './station.ts';
import { wereNotHeld } from './swings.ts';
import { touchedOnly } from './touches.ts';
import type { Turn } from './turns.ts';

/** Stations with a number so far. */
const valued = (capture: BacklashCapture): number => capture.results.filter(({ value }) => !isNone(value)).length;

/** Has every station that was wanted its number? */
function allDone(capture: BacklashCapture): boolean {
  const { stations } = capture.settings;
  return stations !== undefined && valued(capture) >= stations;
}

export function beginStation(capture: BacklashCapture, flags: readonly Flag[] = []): Station | undefined {
  if (allDone(capture)) return undefined;
  const station = newStation(capture.results.length + 1);
  for (const flag of flags) station.flags.add(flag);
  capture.station = station;
  return station;
}

/** A rest at the tooth at work: told, kept, paired, and the station looked at. */
export function takeRest(capture: BacklashCapture, turn: Turn, side: Side): void {
  const { station } = capture;
  if (station === undefined) return;
  tellRest(capture, station, side, turn.level, turn.readings);
  capture.cued = undefined;
  keepRest(station, turn, side);
  if (station.measured !== undefined) return;
  tellRock(capture, station);
  const measured = review(station, settingsSeen(capture), noiseOf(capture.noise));
  if (measured !== undefined) settle(capture, station, measured);
}

export function takeLonger(capture: BacklashCapture, turn: Turn): void {
  if (capture.station !== undefined) keepLonger(capture.station, turn);
}

/** Tells of a rest once, be it while it is held or when it has ended. */
export function tellRest(
  capture: BacklashCapture,
  station: Station,
  side: Side,
  level: number,
  readings: number,
): void {
  if (capture.cued === side || station.measured !== undefined) return;
  capture.cued = side;
  const event = {
    kind: 'rest-found',
    station: station.number,
    t: now(capture),
    side,
    level: mm(level),
    readings,
  } as const;
  capture.said.push(event);
}

function tellRock(capture: BacklashCapture, station: Station): void {
  const values = valuesOf(rocksOf(station.rests));
  const latest = values.at(-1);
  if (latest === undefined || values.length <= station.told) return;
  station.told = values.length;
  capture.said.push({
    kind: 'rock-counted',
    station: station.number,
    t: now(capture),
    rocks: values.length,
    value: mm(latest),
    mean: mm(between(station.rests)?.value ?? mean(values)),
  });
}

/** Writes down what a station came to, and says so. */
function settle(capture: BacklashCapture, station: Station, measured: StationMeasured): void {
  const held = believed(capture, station, measured);
  station.measured = held;
  capture.results[station.number - 1] = held;
  const told = { station: station.number, t: now(capture), measured: held } as const;
  capture.said.push(
    isNone(held.value)
      ? { kind: 'station-refused', ...told, reason: held.value.none }
      : { kind: 'station-done', ...told },
  );
  if (!isNone(held.value) && allDone(capture)) {
    capture.said.push({ kind: 'all-done', station: station.number, t: now(capture) });
  }
}

/** What a number is that no gear can have beside the others, or at all. */
function believed(capture: BacklashCapture, station: Station, measured: StationMeasured): StationMeasured {
  if (!scaleHolds(capture, station, measured)) return refused(station, 'unit-jump');
  return !isNone(measured.value) && measured.value < SHAKES ? refused(station, 'not-held', onlyShakes) : measured;
}

/** No gear's backlash is 25 times that of its next tooth: if it reads so, the unit changed in between. */
function scaleHolds(capture: BacklashCapture, station: Station, { value }: StationMeasured): boolean {
  if (isNone(value)) return true;
  const before = capture.results.slice(0, station.number - 1).findLast((result) => !isNone(result.value));
  return before === undefined || isNone(before.value) || !unitsApart(before.value, value);
}

/** Refuses the station at work for something seen in the stream, even if it had its number already. */
export function refuse(capture: BacklashCapture, station: Station, reason: Refusal): void {
  if (station.measured !== undefined && isNone(station.measured.value)) return;
  settle(capture, station, refused(station, reason));
}

/** Marks the station at work. */
export function mark(capture: BacklashCapture, station: Station, flag: Flag): void {
  station.flags.add(flag);
  if (station.measured === undefined) return;
  station.measured = flagged(station.measured, flag);
  capture.results[station.number - 1] = station.measured;
}

/** The stem has left this tooth, or the technician said so, or the stream has ended. */
export function closeStation(capture: BacklashCapture): void {
  const { station } = capture;
  if (station === undefined) return;
  if (station.measured === undefined) leaveUndone(capture, station);
  else if (!isNone(station.measured.value)) checkEnd(capture, station);
  capture.station = undefined;
  capture.cued = undefined;
}

function leaveUndone(capture: BacklashCapture, station: Station): void {
  const { away, hangs } = capture;
  const settings = settingsSeen(capture);
  const corridor = capture.corridor ?? away?.corridor;
  const width = corridor === undefined ? 0 : widthOf(corridor);
  const seen = { hangs, notHeld: isNotHeld(capture, station), touchedOnly: touchedOnly(capture.turns.touches, width) };
  const measured = leave(station, settings, noiseOf(capture.noise), seen);
  const isUnit = isNone(measured.value) && away !== undefined && unitChanged(away, settings.resolution);
  settle(capture, station, isUnit ? refused(station, 'unit-jump') : measured);
}

/** Where the stem hangs is often learned only when it is lifted off this tooth. */
function checkEnd(capture: BacklashCapture, station: Station): void {
  const { hangs } = capture;
  const evidence = evidenceOf(station, { settings: settingsSeen(capture), noise: noiseOf(capture.noise), hangs });
  if (evidence !== undefined && atAnEnd(evidence)) refuse(capture, station, 'end-of-travel');
}

function isNotHeld({ away, swings }: BacklashCapture, { strokes, rests }: Station): boolean {
  return wereNotHeld(away === undefined ? strokes + swings.count : strokes, rests.length);
}

/** A stretch in which the gear was moved but no rock came of it is a station too, refused: nothing is skipped unsaid. */
export function refuseUnrocked(capture: BacklashCapture, reason: Refusal, why: string): void {
  const station = beginStation(capture);
  if (station === undefined) return;
  settle(capture, station, refused(station, reason, why));
  capture.station = undefined;
}

/** How far rests of one side may lie apart before the corridor counts as rough, as a share of its width. */
const ROUGH = 0.12;

export function renewMargin(capture: BacklashCapture): void {
  const { corridor, station } = capture;
  if (corridor === undefined) return;
  const rests = station?.rests ?? [];
  const rough = (['low', 'high'] as const).some((side) => {
    const levels = levelsOf(rests, side);
    return Math.max(...levels) - Math.min(...levels) > ROUGH * widthOf(corridor);
  });
  setMargin(corridor, noiseOf(capture.noise), rough);
}
