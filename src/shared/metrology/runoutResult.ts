import { type Angle, type Length, mm, radians } from '../quantities/quantity.ts';
import { none, type OrNone } from '../result.ts';
import { extremesOf } from './extremes.ts';
import { type AnglePoint, fitHarmonics, type HarmonicFit, leastSeen, widestGap, wrapped } from './harmonics.ts';
import type { Pause } from './pauses.ts';
import { type Bin, filledBins, type Profile } from './profile.ts';
import { closedCopy, mostStations, type RunoutCapture } from './runoutCapture.ts';
import { fewestForShape, type RunoutShape, type ShapeFound, shapeOf } from './runoutShape.ts';
import { noiseOf } from './sieve.ts';
import { span } from './statistics.ts';
import { combine, gaugeParts, rectangular, type UncertaintyPart } from './uncertainty.ts';

export type RunoutFlag =
  | 'drift'
  | 'unit-jump'
  | 'gap'
  /** Single wild readings were left out. */
  | 'spike'
  /** No angle, no marks: everything read is taken as one turn. */
  | 'turn-assumed'
  /** Another number of pauses was found than there are stations. */
  | 'stations-unclear'
  /** Stations are taken as equally spaced, in the order of their numbers. */
  | 'equal-spacing-assumed'
  /** The stem rode higher or lower between the stations than at any of them. */
  | 'more-between'
  /** At these stations two lobes can vanish. */
  | 'two-lobes-can-vanish';

export type NoRunout = 'nothing-measured' | 'part-turn' | 'unit-jump' | 'drift' | 'too-few-stations';

export interface HarmonicMeasured {
  readonly order: number;
  readonly amplitude: Length;
  readonly highSpot: Angle;
  readonly u: Length;
}

export interface StationMeasured {
  readonly number: number;
  readonly value: Length;
  readonly angle?: Angle;
}

export interface RunoutMeasured {
  readonly tir: OrNone<Length, NoRunout>;
  /** First and, where the places can tell it, second harmonic; none where the angle of the readings is not known. */
  readonly harmonics: OrNone<readonly HarmonicMeasured[], 'no-angle' | 'too-few-places'>;
  /** Largest minus smallest of what the harmonics leave over. */
  readonly residual: OrNone<Length>;
  /** Readings where the hand paused; absent for a continuous turn. */
  readonly stations?: readonly StationMeasured[];
  /** By how much the true TIR of a surface with one lobe may exceed this one, at these places. */
  readonly missAtWorst: OrNone<Length>;
  readonly u: Length;
  readonly U95: Length;
  readonly parts: readonly UncertaintyPart[];
  readonly flags: readonly RunoutFlag[];
  readonly shape: RunoutShape;
  readonly burr?: ShapeFound['burr'];
}

/** Works out the runout of the readings so far; the capture may take more after that. */
export function finishRunout(going: RunoutCapture): RunoutMeasured {
  const capture = closedCopy(going);
  const pauses = stationsOf(capture);
  if (pauses === undefined) return fromTurn(capture, []);
  return unclear(capture, pauses) ? fromTurn(capture, ['stations-unclear']) : fromStations(capture, pauses);
}

/**
 * Without angle and without presses, two neighbouring stations of the same height look like one pause. The numbers of
 * the stations are then lost, but what the stem rode over is not: it is judged as a turn, and said so.
 */
function unclear({ settings, round, pressed, sieve }: RunoutCapture, pauses: readonly Pause[]): boolean {
  const known = round !== undefined || pressed.length >= 2 || pauses.every(({ n }) => n === 1);
  const { stations } = withoutReturn(pauses, settings.stations);
  const asStated = settings.stations === undefined ? stations.length >= 3 : stations.length === settings.stations;
  return !known && !asStated && sieve.passed > 0;
}

/** The pauses to judge by, or undefined for a continuous turn. A press is the technician's word and outranks what was found. */
function stationsOf({ settings, pressed, pauses, sieve, round }: RunoutCapture): readonly Pause[] | undefined {
  if (settings.mode === 'continuous') return undefined;
  const found = pressed.length >= 2 ? withLast(pressed, pauses, settings.stations) : pauses;
  if (settings.mode === 'stations') return found;
  const resting = found.reduce((sum, pause) => sum + pause.n, 0);
  const clear = pressed.length >= 3 || round !== undefined || found.every((pause) => pause.n === 1);
  return clear && found.length >= 3 && found.length <= mostStations && resting >= sieve.passed / 2 ? found : undefined;
}

/** The last station is often left without a press: the hand stops there instead. */
function withLast(pressed: readonly Pause[], pauses: readonly Pause[], stations: number | undefined): readonly Pause[] {
  const last = pauses.at(-1);
  const missing = last !== undefined && last.t > (pressed.at(-1)?.t ?? Infinity);
  return missing && stations === pressed.length + 1 ? [...pressed, last] : pressed;
}

function fromTurn(capture: RunoutCapture, why: readonly RunoutFlag[]): RunoutMeasured {
  const { sieve, settings, round } = capture;
  const noise = noiseOf(sieve);
  const profile = round ?? capture.marked ?? capture.inOrder;
  const bins = filledBins(profile);
  const extremes = extremesOf(profile, noise, settings.resolution);
  if (extremes === undefined) return nothing('nothing-measured', []);
  const gap = round === undefined ? 0 : widestGap(bins.map(({ angle }) => angle));
  if (gap > widestAllowed) return nothing('part-turn', flagsOf(capture, 0));
  const tir = extremes.high - extremes.low;
  const seen = round === undefined ? profile.n : Math.floor((2 * Math.PI) / gap + 1e-6);
  const closing = closingOf(capture);
  return assembled(capture, {
    tir,
    noise: { name: 'noise in the extremes', u: extremes.u },
    closing,
    places: seen,
    fit: round === undefined ? undefined : fitWhatCanBeTold(bins),
    withheld: 'no-angle',
    shape: round === undefined ? { shape: 'unknown' } : shapeRound(profile, bins, noise, settings.resolution),
    flags: [
      ...why,
      ...(round === undefined && capture.marks < 2 ? (['turn-assumed'] as const) : []),
      ...(round === undefined && sieve.gaps > 0 ? (['gap'] as const) : []),
    ],
  });
}

/** A turn with a wider gap than an eighth of it was not a whole one. */
const widestAllowed = (2 * Math.PI) / 8 + 1e-9;

/** Fine bins gathered into 72 places, so that a burr of a few degrees covers one to three of them. */
function shapeRound(profile: Profile, bins: readonly Bin[], noise: number, resolution: number): ShapeFound {
  const places = 72;
  const gathered = Array.from({ length: places }, () => ({ sum: 0, n: 0 }));
  for (const { angle, value, n } of bins) {
    const place = gathered[Math.floor((angle * places) / (2 * Math.PI))];
    if (place === undefined) continue;
    place.sum += value * n;
    place.n += n;
  }
  const points = gathered.flatMap(({ sum, n }, index) =>
    n === 0 ? [] : [{ angle: radians(((index + 0.5) * 2 * Math.PI) / places), value: sum / n }],
  );
  return shapeOf(points, noise / Math.sqrt(profile.n / points.length) + resolution / 10, points.length > 24 ? 3 : 1);
}

function fromStations(capture: RunoutCapture, found: readonly Pause[]): RunoutMeasured {
  const { settings } = capture;
  const { stations, back } = withoutReturn(found, settings.stations);
  if (stations.length < 3)
    return nothing(found.length === 0 ? 'nothing-measured' : 'too-few-stations', flagsOf(capture, 0));
  const angles = anglesOf(stations, settings.stations);
  const points = angles?.map((angle, index) => ({ angle, value: stations[index]?.value ?? 0 }));
  const values = stations.map(({ value }) => value);
  const noise = noiseOfMeans(stations);
  const unclear = settings.stations !== undefined && stations.length !== settings.stations;
  const assumed = angles !== undefined && stations[0]?.angle === undefined;
  const gap = widestGap(angles ?? []);
  const first = stations[0];
  return assembled(capture, {
    tir: span(values),
    noise: { name: 'readings at the stations', u: Math.SQRT2 * noise },
    closing: back === undefined || first === undefined ? 0 : back.value - first.value,
    places: angles === undefined ? stations.length : Math.floor((2 * Math.PI) / gap + 1e-6),
    fit: points === undefined ? undefined : fitWhatCanBeTold(points),
    withheld: angles === undefined ? 'no-angle' : 'too-few-places',
    shape:
      points === undefined
        ? { shape: 'unknown' }
        : shapeOf(points, Math.hypot(noise, settings.resolution / Math.sqrt(12))),
    flags: [
      ...(unclear ? (['stations-unclear'] as const) : []),
      ...(assumed ? (['equal-spacing-assumed'] as const) : []),
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

/** Standard deviation of a station's mean, pooled over the pauses; readings sent singly cannot tell it. */
function noiseOfMeans(stations: readonly Pause[]): number {
  const many = stations.filter(({ n }) => n > 1);
  if (many.length === 0) return 0;
  return Math.sqrt(many.reduce((sum, { sd, n }) => sum + (sd * sd) / n, 0) / many.length);
}

function moreBetween({ low, high, settings, sieve }: RunoutCapture, values: readonly number[]): readonly RunoutFlag[] {
  const beyond = Math.max(high - Math.max(...values), Math.min(...values) - low);
  return beyond > 2 * settings.resolution + 4 * noiseOf(sieve) ? ['more-between'] : [];
}

/** First and second harmonic where the places can tell both, else the first alone. */
const fitWhatCanBeTold = (points: readonly AnglePoint[]): HarmonicFit | undefined =>
  (points.length >= fewestForShape - 1 ? fitHarmonics(points, [1, 2]) : undefined) ?? fitHarmonics(points, [1]);

/** How far the same place reads apart a turn later, by angle or at the marks. */
function closingOf({ closing, firstMark, lastMark, marks, round }: RunoutCapture): number {
  if (round !== undefined) return closing.n >= 3 ? closing.mean : 0;
  return marks >= 2 && firstMark === firstMark ? lastMark - firstMark : 0;
}

interface Found {
  readonly tir: number;
  readonly noise: UncertaintyPart;
  readonly closing: number;
  /** Equally spaced places that see at least as much as these. */
  readonly places: number;
  readonly fit: HarmonicFit | undefined;
  readonly withheld: 'no-angle' | 'too-few-places';
  readonly shape: ShapeFound;
  readonly flags: readonly RunoutFlag[];
  readonly stations?: readonly StationMeasured[];
}

function assembled(capture: RunoutCapture, found: Found): RunoutMeasured {
  const { tir, fit, withheld, shape, stations } = found;
  const flags = [...flagsOf(capture, found.closing), ...found.flags];
  const parts = partsOf(capture, found);
  const { u, U95 } = combine(parts);
  const refused = refusalOf(capture, found);
  const share = leastSeen(found.places);
  return {
    tir: refused === undefined ? mm(tir) : none(refused),
    harmonics: fit === undefined ? none(withheld) : fit.harmonics.map(measured),
    residual: fit === undefined ? none(withheld) : mm(fit.residualSpan),
    ...(stations === undefined ? {} : { stations }),
    missAtWorst: share > 0 ? mm(tir / share - tir) : none('too-few-places'),
    u: mm(u),
    U95: mm(U95),
    parts,
    flags,
    ...shape,
  };
}

const measured = ({ order, amplitude, highSpot, u }: HarmonicFit['harmonics'][number]): HarmonicMeasured => ({
  order,
  amplitude: mm(amplitude),
  highSpot,
  u: mm(u),
});

function partsOf({ settings }: RunoutCapture, { noise, closing }: Found): readonly UncertaintyPart[] {
  const gauge = { resolution: settings.resolution, ...(settings.gaugeU === undefined ? {} : { u: settings.gaugeU }) };
  return [
    ...gaugeParts(gauge, 'difference'),
    ...(settings.hysteresis === undefined ? [] : [{ name: 'gauge hysteresis', u: rectangular(settings.hysteresis) }]),
    noise,
    ...(closing === 0 ? [] : [{ name: 'not coming back', u: rectangular(Math.abs(closing)) }]),
  ];
}

/** A turn that ends more than half its own runout from where it began measured the stand, not the gear. */
function refusalOf({ sieve, settings }: RunoutCapture, { tir, closing }: Found): NoRunout | undefined {
  if (sieve.unitJump) return 'unit-jump';
  return Math.abs(closing) > Math.max(5 * settings.resolution, tir / 2) ? 'drift' : undefined;
}

function flagsOf({ sieve, settings }: RunoutCapture, closing: number): readonly RunoutFlag[] {
  const drifts = Math.abs(closing) > 2 * settings.resolution + 3 * noiseOf(sieve);
  return [
    ...(drifts ? (['drift'] as const) : []),
    ...(sieve.unitJump ? (['unit-jump'] as const) : []),
    ...(sieve.spikes > 0 ? (['spike'] as const) : []),
  ];
}

const nothing = (reason: NoRunout, flags: readonly RunoutFlag[]): RunoutMeasured => ({
  tir: none(reason),
  harmonics: none('too-few-places'),
  residual: none(reason),
  missAtWorst: none(reason),
  u: mm(0),
  U95: mm(0),
  parts: [],
  flags,
  shape: 'unknown',
});
