import { type AnglePoint, fitHarmonics, type HarmonicFit, leastSeen, widestGap } from '../../basics/harmonics.ts';
import { radians } from '../../basics/quantity.ts';
import { isNone, none, type NoNumber } from '../../basics/result.ts';
import { rectangular, type UncertaintyPart } from '../uncertainty/uncertainty.ts';
import { isCutOff } from './cutOff.ts';
import { type Extremes, extremesOf } from './extremes.ts';
import { type Movement, nothingMoved } from './moved.ts';
import { type Lap, lapOf } from './lap.ts';
import { courseOf } from './oneWay.ts';
import { addAtAngle, addInOrder, type Bin, filledBins, orderedProfile, type Profile, roundProfile } from './profile.ts';
import { movingPart, withShortRests } from './rests.ts';
import { type Ride, rideOf } from './ride.ts';
import { assembled, nothing, type RunoutFlag, type RunoutMeasured } from './runoutMeasured.ts';
import { fewestForShape, type ShapeFound, shapeOf } from './runoutShape.ts';
import type { RunoutCapture } from './runoutState.ts';
import { samePlaceAround, samePlaceAtEnds } from './samePlace.ts';
import { noiseOfPoints } from './trace.ts';
import { keptBySmoothing, secondsOf, swayAtRest, wanderingIn } from './wandering.ts';

/** Runout of one continuous ride, by the angle where it is known, else in the order of the readings. */
export function fromTurn(capture: RunoutCapture, why: readonly RunoutFlag[]): RunoutMeasured {
  const { sieve, settings } = capture;
  const ride = rideOf(capture);
  if (isNone(ride)) return nothing(ride.none, []);
  // Lifted in a stretch without marks or angle, the stem leaves nobody able to say how much of the turn it saw.
  if (capture.left && !ride.placed && !ride.marked) return nothing('stem-lifted', []);
  // A ride that stopped at stations was not turned evenly enough to weigh how much of a turn it was.
  const lap = ride.placed || why.length > 0 ? undefined : lapOfRide(ride, settings.resolution);
  const seen = lookedAt(ride, settings.resolution, lap?.turns ?? 1);
  if (seen === undefined) return nothing('nothing-measured', []);
  const { profile, bins, tir, white, wandering, places } = seen;
  if (ride.placed && widestGap(bins.map(({ angle }) => angle)) > widestAllowed) return nothing('part-turn', []);
  const stood = !ride.placed && nothingMoved(movementOf(ride, seen, settings.resolution));
  const course = courseOf(ride.points, settings.resolution);
  if (course === 'one-way' && (ride.placed || ride.marked) && !stood) return nothing('held', []);
  const round = ride.placed ? byAngle(ride) : byOrder(ride, lap);
  if (isNone(round)) return nothing(round.none, []);
  if (stood) return nothing(capture.leapt > 0 ? 'stem-lifted' : 'not-turned', []);
  if (course === 'one-way') return nothing('part-turn', []);
  return assembled(capture, {
    tir,
    doubt: [...seen.noiseParts, ...betweenPart(tir, places), ...round.doubt],
    closing: round.apart,
    ...(round.weighed === undefined ? {} : { closingWeighed: round.weighed }),
    noise: white,
    places,
    fit: ride.placed ? fitWhatCanBeTold(bins) : undefined,
    withheld: 'no-angle',
    shape: ride.placed ? shapeRound(profile, bins, white, settings.resolution) : { shape: 'unknown' },
    flags: [
      ...why,
      ...(!ride.placed && !ride.marked ? (['turn-assumed'] as const) : []),
      ...(!ride.placed && sieve.gaps > 0 ? (['gap'] as const) : []),
      ...round.flags,
      ...(places < fewestReadings ? (['few-readings'] as const) : []),
      ...(wandering ? (['correlated-noise'] as const) : []),
      ...(isCutOff(movingPart(ride.points, bandOf(white, settings.resolution) / 2), settings.resolution)
        ? (['end-of-travel'] as const)
        : []),
      ...(course === 'hardly-moved' ? (['held'] as const) : []),
    ],
  });
}

/** What is known of the turn as a whole: whether it was one, and whether it came back to where it began. */
interface Round {
  readonly apart: number;
  /** The same for the doubt, where it is not known how much of a turn it was. */
  readonly weighed?: number;
  readonly doubt: readonly UncertaintyPart[];
  readonly flags: readonly RunoutFlag[];
}

function byAngle({ points }: Ride): Round {
  const again = samePlaceAround(points);
  if (again === undefined) return { apart: 0, doubt: [], flags: ['not-compared'] };
  return { apart: again.apart, doubt: again.u === 0 ? [] : [{ name: 'across the gap', u: again.u }], flags: [] };
}

/** Longer odds than these against a whole turn are no turn. */
const hardlyWhole = 0.85;
/** Real surfaces differ more from each other than three lobes say (our choice; the table in docs/uncertainty.md shows what it gives). */
const surfacesUnlikeOurs = 1.5;

function byOrder(ride: Ride, lap: Lap | undefined): Round | NoNumber<'part-turn'> {
  if (lap === undefined) return { apart: samePlaceAtEnds(ride.points)?.apart ?? 0, doubt: [], flags: ['not-compared'] };
  if (lap.partChance > hardlyWhole) return none('part-turn');
  return {
    apart: lap.atLeastApart,
    weighed: lap.apart,
    doubt: [{ name: 'part of a turn', u: surfacesUnlikeOurs * lap.moreRms }],
    flags: lap.partChance > 0.5 ? ['part-turn'] : [],
  };
}

function lapOfRide({ points, marked }: Ride, resolution: number): Lap | undefined {
  const white = noiseOfPoints(points);
  const moving = movingPart(points, bandOf(white, resolution) / 2);
  return lapOf(moving, marked, Math.hypot(white, resolution / Math.sqrt(12)));
}

const movementOf = ({ points, marked }: Ride, { tir, noiseParts }: Seen, resolution: number): Movement => ({
  points,
  tir,
  resolution,
  noise: Math.hypot(...noiseParts.map(({ u }) => u)),
  apart: marked ? samePlaceAtEnds(points)?.apart : undefined,
});

/** Readings of a stem that rests lie within this, mm. */
const bandOf = (white: number, resolution: number): number => 1.1 * resolution + 6 * white;

/** Degrees of freedom of a spread that was seen at one or two rests. */
const atRestKnownTo = 6;

interface Seen {
  readonly profile: Profile;
  readonly bins: readonly Bin[];
  readonly tir: number;
  /** Standard deviation of one reading's own noise. */
  readonly white: number;
  readonly noiseParts: readonly UncertaintyPart[];
  /** Noise with a memory is most of what noise leaves open. */
  readonly wandering: boolean;
  /** Equally spaced places that see at least as much as these readings. */
  readonly places: number;
}

/** The highest and lowest place of the ride, and what noise of either kind leaves open about them. */
function lookedAt(ride: Ride, resolution: number, turns: number): Seen | undefined {
  const white = noiseOfPoints(ride.points);
  const points = ride.placed ? ride.points : withShortRests(ride.points, bandOf(white, resolution));
  const wander = wanderingIn(points, resolution, ride.placed ? undefined : turns);
  const noise = Math.hypot(white, wander.sd);
  const profile = laid(ride, points, noise, resolution);
  const extremes = extremesOf(profile, { own: white, all: noise }, resolution);
  if (extremes === undefined) return undefined;
  const bins = filledBins(profile);
  const own = noise === 0 ? 0 : (extremes.u * white) / noise;
  // Two halves of the readings may disagree about a surface that does not run out at all.
  const tir = Math.max(0, extremes.high - extremes.low);
  const turning = wander.sd * keptBySmoothing(wander, halfOf(ride, points, extremes));
  const resting = swayAtRest(ride, tir, white, resolution);
  const wanders = Math.SQRT2 * Math.max(turning, resting);
  // A hand that lingers leaves gaps elsewhere: without the angle, half the readings are taken to lie evenly.
  const places = ride.placed
    ? Math.floor((2 * Math.PI) / widestGap(bins.map(({ angle }) => angle)) + 1e-6)
    : Math.ceil(profile.n / 2);
  return {
    profile,
    bins,
    tir,
    white,
    noiseParts: [
      { name: 'noise in the extremes', u: own },
      ...(wanders === 0
        ? []
        : [{ name: 'wandering noise', u: wanders, nu: resting > turning ? atRestKnownTo : wander.nu }]),
    ],
    wandering: wanders > own && wanders > resolution / Math.sqrt(6),
    places,
  };
}

/**
 * By the angle where it is known; else in the order of the readings, and round where a marked turn comes back to where it
 * began: what lies at its very begin then has neighbours on both sides.
 */
function laid(ride: Ride, points: Ride['points'], noise: number, resolution: number): Profile {
  const around = ride.placed || (ride.marked && comesBack(ride, noise, resolution));
  const profile = around ? roundProfile() : orderedProfile();
  for (const [index, { travel, value }] of points.entries())
    if (ride.placed) addAtAngle(profile, travel, value);
    else if (around) addAtAngle(profile, (2 * Math.PI * index) / points.length, value);
    else addInOrder(profile, value);
  return profile;
}

const comesBack = ({ points }: Ride, noise: number, resolution: number): boolean =>
  Math.abs(samePlaceAtEnds(points)?.apart ?? Infinity) <= 2 * resolution + 3 * noise;

/** Seconds to each side of a place that are taken together: round the gear the ride may have been more than one turn. */
function halfOf({ placed }: Ride, points: Ride['points'], { share }: Extremes): number {
  const [first, last] = [points[0], points.at(-1)];
  const turns =
    placed && first !== undefined && last !== undefined ? Math.abs(last.travel - first.travel) / (2 * Math.PI) : 1;
  return secondsOf(points, share) / Math.max(1, turns);
}

const betweenPart = (tir: number, places: number): readonly UncertaintyPart[] => [
  { name: 'between readings', u: rectangular(tir / Math.max(leastSeen(places), leastSeen(3)) - tir) },
];

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
