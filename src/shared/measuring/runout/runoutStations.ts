import { type Angle, mm, radians } from '../../basics/quantity.ts';
import { leastSeen, widestGap, wrapped } from '../../basics/harmonics.ts';
import { creepBetween } from './creepBetween.ts';
import { standsMove } from './moved.ts';
import type { Pause } from './pauses.ts';
import { readAtPresses } from './pressed.ts';
import type { Unsettled } from './settled.ts';
import { isPlaced, mostStations, type RunoutCapture } from './runoutState.ts';
import {
  assembled,
  flagsOf,
  nothing,
  type RunoutFlag,
  type RunoutMeasured,
  type StationMeasured,
} from './runoutMeasured.ts';
import { shapeOf } from './runoutShape.ts';
import { fitWhatCanBeTold } from './runoutTurn.ts';
import { noiseOf } from '../sieve.ts';
import { span } from '../../basics/statistics.ts';

/**
 * Without angle and without presses, two neighbouring stations of the same height look like one pause; and a gauge that
 * reads seldom may not show a short pause at all. The numbers of the stations are then lost, but what the stem rode over
 * is not: it is judged as a turn, and said so.
 */
export function unclear(capture: RunoutCapture, pauses: readonly Pause[]): boolean {
  const { settings, pressed, sieve } = capture;
  if (pressed.length >= 2 || pauses.every(({ n }) => n === 1) || sieve.passed === 0) return false;
  const { stations } = withoutReturn(pauses, settings.stations);
  if (isPlaced(capture)) return stations.length < (settings.stations ?? 0) && rodeWholeTurn(capture);
  return settings.stations === undefined ? stations.length < 3 : stations.length !== settings.stations;
}

/** Within the few degrees that a hand stops short of the first station again. */
const rodeWholeTurn = ({ travelLow, travelHigh }: RunoutCapture): boolean =>
  travelHigh - travelLow > 2 * Math.PI - Math.PI / 18;

/** The pauses to judge by, or undefined for a continuous turn. A press is the technician's word and outranks what was found. */
export function stationsOf(capture: RunoutCapture): readonly Pause[] | Unsettled | undefined {
  const { settings, pressed, pauses, sieve, trace } = capture;
  if (settings.mode === 'continuous') return undefined;
  if (settings.mode === 'auto' && pressed.length === 2) return undefined;
  const read = pressed.length >= 2 ? readAtPresses(capture) : pauses;
  if (typeof read === 'string') return read;
  const found = pressed.length >= 2 ? withLast(read, pauses, settings.stations) : pauses;
  if (settings.mode === 'stations') return found;
  const resting = found.reduce((sum, pause) => sum + pause.n, 0);
  if (pressed.length >= 3) return resting * trace.perPoint >= sieve.passed / 5 ? found : undefined;
  const clear = isPlaced(capture) || found.every((pause) => pause.n === 1);
  return clear && found.length >= 3 && found.length <= mostStations && resting >= sieve.passed / 2 ? found : undefined;
}

/** The last station is often left without a press: the hand stops there instead. */
function withLast(pressed: readonly Pause[], pauses: readonly Pause[], stations: number | undefined): readonly Pause[] {
  const last = pauses.at(-1);
  const missing = last !== undefined && last.t > (pressed.at(-1)?.t ?? Infinity);
  return missing && stations === pressed.length + 1 ? [...pressed, last] : pressed;
}

/** Runout at the places where the hand paused. */
export function fromStations(capture: RunoutCapture, found: readonly Pause[]): RunoutMeasured {
  const { settings } = capture;
  const { stations, back } = withoutReturn(found, settings.stations);
  if (stations.length < 3)
    return nothing(found.length === 0 ? 'nothing-measured' : 'too-few-stations', flagsOf(capture, 0, 0));
  const angles = anglesOf(stations, settings.stations);
  const points = angles?.map((angle, index) => ({ angle, value: stations[index]?.value ?? 0 }));
  const values = stations.map(({ value }) => value);
  const noise = noiseOfMeans(stations);
  if (!isPlaced(capture) && (standsStill(capture, values, noise.u) || onlyTheStand(capture, stations)))
    return nothing('not-turned', []);
  const unclear = settings.stations !== undefined && stations.length !== settings.stations;
  const assumed = angles !== undefined && stations[0]?.angle === undefined;
  const gap = widestGap(angles ?? []);
  const first = stations[0];
  return assembled(capture, {
    tir: span(values),
    doubt: [
      { name: 'readings at the stations', u: Math.SQRT2 * noise.u },
      ...(back === undefined ? creepBetween(capture.trace, stations) : []),
    ],
    closing: back === undefined || first === undefined ? 0 : back.value - first.value,
    noise: noiseOf(capture.sieve),
    places: angles === undefined ? stations.length : Math.floor((2 * Math.PI) / gap + 1e-6),
    fit: points === undefined ? undefined : fitWhatCanBeTold(points),
    withheld: angles === undefined ? 'no-angle' : 'too-few-places',
    shape:
      points === undefined
        ? { shape: 'unknown' }
        : shapeOf(points, Math.hypot(noise.u, settings.resolution / Math.sqrt(12))),
    flags: [
      ...(unclear ? (['stations-unclear'] as const) : []),
      ...(capture.left && unclear ? (['stem-lifted'] as const) : []),
      ...(assumed ? (['equal-spacing-assumed'] as const) : []),
      ...(noise.wanders && noise.u > settings.resolution / Math.sqrt(6) ? (['correlated-noise'] as const) : []),
      ...moreBetween(capture, values),
      ...(leastSeen(stations.length, 2) === 0 ? (['two-lobes-can-vanish'] as const) : []),
    ],
    stations: stations.map(({ value }, index) => numbered(index, value, angles?.[index])),
  });
}

const numbered = (index: number, value: number, angle: Angle | undefined): StationMeasured => ({
  number: index + 1,
  value: mm(value),
  ...(angle === undefined ? {} : { angle }),
});

/** A turn by stations often ends where it began: that reading is the check, not a further station. */
function withoutReturn(found: readonly Pause[], stated: number | undefined) {
  const [first, last] = [found[0], found.at(-1)];
  if (first === undefined || last === undefined || found.length < 3) return { stations: found };
  const back =
    first.angle === undefined || last.angle === undefined
      ? found.length === (stated ?? 0) + 1
      : Math.abs(wrapped(last.angle - first.angle + Math.PI) - Math.PI) < Math.PI / (2 * found.length);
  return back ? { stations: found.slice(0, -1), back: last } : { stations: found };
}

/** Measured angles, or equal spacing when as many stations were found as there are; undefined when neither is known. */
function anglesOf(stations: readonly Pause[], stated: number | undefined): readonly Angle[] | undefined {
  const measured = stations.flatMap(({ angle }) => (angle === undefined ? [] : [radians(wrapped(angle))]));
  if (measured.length === stations.length) return measured;
  const equal = stated === stations.length || (stated === undefined && stations.every(({ n }) => n === 1));
  return equal ? stations.map((_, index) => radians((2 * Math.PI * index) / stations.length)) : undefined;
}

/** Neither the stations differ nor did the stem move on the way from one to the next: nothing shows that the gear was turned. */
function standsStill({ low, high, settings, sieve }: RunoutCapture, values: readonly number[], u: number): boolean {
  const { resolution } = settings;
  return span(values) < resolution / 2 + 3.3 * Math.SQRT2 * u && high - low <= 1.1 * resolution + 6 * noiseOf(sieve);
}

/** What somebody typed or sent with a button is their word that they turned it; a stream says so itself or not at all. */
const onlyTheStand = ({ low, high }: RunoutCapture, stations: readonly Pause[]): boolean =>
  high - low < standsMove && stations.every(({ n }) => n > 1);

/** Of noise that remembers as long as a rest takes, the rest shows a third or less of its variance (simulated). */
const hidden = 3;

/** What the readings at the stations leave open about one station's mean. */
interface StationNoise {
  readonly u: number;
  readonly wanders: boolean;
}

/**
 * Standard uncertainty of a station's mean, pooled over the pauses; readings sent singly cannot tell it. Where readings
 * follow each other more closely than they spread, fewer of them count: for a first-order process n·r/(2 − r) of n, r the mean
 * square of steps over twice the variance
 * (derived).
 */
function noiseOfMeans(stations: readonly Pause[]): StationNoise {
  const many = stations.filter(({ n }) => n > 1);
  if (many.length === 0) return { u: 0, wanders: false };
  const total = many.reduce((sum, { sd, n }) => sum + sd * sd * (n - 1), 0);
  const freedom = many.reduce((sum, { n }) => sum + n - 1, 0);
  const steps = many.reduce((sum, { steps: own, sd, n }) => sum + (own ?? 2 * sd * sd * (n - 1)), 0);
  const variance = total / freedom;
  const ratio = variance === 0 ? 1 : Math.min(1, steps / freedom / 2 / variance);
  const usual = freedom / many.length + 1;
  const counting = Math.max(1, (usual * ratio) / (2 - ratio));
  const wanders = ratio < 0.6;
  return { u: Math.sqrt(wanders ? hidden * variance : variance / counting), wanders };
}

function moreBetween(
  { lowBetween: low, highBetween: high, settings, sieve }: RunoutCapture,
  values: readonly number[],
): readonly RunoutFlag[] {
  const beyond = Math.max(high - Math.max(...values), Math.min(...values) - low);
  return beyond > 2 * settings.resolution + 4 * noiseOf(sieve) ? ['more-between'] : [];
}
