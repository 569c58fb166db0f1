import { radians } from '../../basics/quantity.ts';
import { extremesOf } from './extremes.ts';
import { type AnglePoint, fitHarmonics, type HarmonicFit, leastSeen, widestGap } from '../../basics/harmonics.ts';
import { type Bin, filledBins, type Profile } from './profile.ts';
import type { RunoutCapture } from './runoutState.ts';
import { assembled, flagsOf, nothing, type RunoutFlag, type RunoutMeasured } from './runoutMeasured.ts';
import { fewestForShape, type ShapeFound, shapeOf } from './runoutShape.ts';
import { noiseOf } from '../sieve.ts';
import { rectangular } from '../uncertainty/uncertainty.ts';

/** Runout of one continuous ride, by the angle where it is known, else in the order of the readings. */
export function fromTurn(capture: RunoutCapture, why: readonly RunoutFlag[]): RunoutMeasured {
  const { sieve, settings, round } = capture;
  if (unknownTurn(capture)) return nothing('stem-lifted', []);
  const noise = noiseOf(sieve);
  const profile = round ?? capture.marked ?? capture.inOrder;
  const bins = filledBins(profile);
  const extremes = extremesOf(profile, noise, settings.resolution);
  if (extremes === undefined) return nothing('nothing-measured', []);
  const gap = round === undefined ? 0 : widestGap(bins.map(({ angle }) => angle));
  if (gap > widestAllowed) return nothing('part-turn', flagsOf(capture, 0));
  // Two halves of the readings may disagree about a surface that does not run out at all.
  const tir = Math.max(0, extremes.high - extremes.low);
  // A hand that lingers leaves gaps elsewhere: without the angle, half the readings are taken to lie evenly.
  const seen = round === undefined ? Math.ceil(profile.n / 2) : Math.floor((2 * Math.PI) / gap + 1e-6);
  const between = tir / Math.max(leastSeen(seen), leastSeen(3)) - tir;
  const closing = closingOf(capture);
  return assembled(capture, {
    tir,
    doubt: [
      { name: 'noise in the extremes', u: extremes.u },
      { name: 'between readings', u: rectangular(between) },
    ],
    closing,
    places: seen,
    fit: round === undefined ? undefined : fitWhatCanBeTold(bins),
    withheld: 'no-angle',
    shape: round === undefined ? { shape: 'unknown' } : shapeRound(profile, bins, noise, settings.resolution),
    flags: [
      ...why,
      ...(round === undefined && capture.marks < 2 ? (['turn-assumed'] as const) : []),
      ...(round === undefined && sieve.gaps > 0 ? (['gap'] as const) : []),
      ...(seen < fewestReadings ? (['few-readings'] as const) : []),
    ],
  });
}

/** Put down or lifted in a stretch without marks or angle, the stem leaves nobody able to say which part was the turn. */
const unknownTurn = ({ round, marks, leapt, left }: RunoutCapture): boolean =>
  round === undefined && marks < 2 && (leapt > 0 || left);

/** Places that see all but 1 % of one lobe, and all but 4 % of two. */
const fewestReadings = 24;

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

/** First and second harmonic where the places can tell both, else the first alone. */
export const fitWhatCanBeTold = (points: readonly AnglePoint[]): HarmonicFit | undefined =>
  (points.length >= fewestForShape - 1 ? fitHarmonics(points, [1, 2]) : undefined) ?? fitHarmonics(points, [1]);

/** How far the same place reads apart a turn later, by angle or at the marks. */
function closingOf({ closing, firstMark, lastMark, marks, round }: RunoutCapture): number {
  if (round !== undefined) return closing.n >= 3 ? closing.mean : 0;
  return marks >= 2 && firstMark === firstMark ? lastMark - firstMark : 0;
}
