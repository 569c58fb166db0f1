import { type Place, placesOf } from './localTop.ts';
import { type Bin, filledBins, type Profile } from './profile.ts';
import { median } from '../../basics/statistics.ts';

/** Lowest and highest place of a profile. */
export interface Extremes {
  readonly low: number;
  readonly high: number;
  /** Standard uncertainty that the gauge's noise leaves in high − low. */
  readonly u: number;
  /** How far to each side of a place readings were taken together, as a share of the profile. */
  readonly share: number;
}

/** Standard deviations of a reading's noise: its own, and all of it, with what wanders. */
interface Noise {
  readonly own: number;
  readonly all: number;
}

/** A burr, and the dips that a parabola over it leaves on both its sides; twice. */
const mostBurrs = 6;

/** The widest place taken together: 30° to each side of one turn. One lobe then loses 0.1 %, two lobes 1 % (derived). */
const widestOfTurn = 1 / 12;
/** Half as wide again where readings are so few that neither half of them could tell by itself. */
const fewestTogether = 9;

/**
 * Largest and smallest of what the stem rode over, without what noise adds to them.
 *
 * The largest of many noisy readings is too large: among five hundred of them by three standard deviations at each
 * end. So a parabola is laid through as wide a place as it takes to bring the noise of its middle under a quarter of the
 * resolution. The highest of these middles is still a little too high, for noise helped to choose it. Choosing by one half
 * of the readings and reading off the other is a little too low, for the place chosen is beside the top. The middle between
 * the two is right (simulated over 15 to 300 readings a turn, noise up to a third of the amplitude; docs/uncertainty.md).
 * A feature narrower than that place, a burr, counts when two readings in a row stand out further than noise explains.
 * @param widest the widest place to each side, as a share of the profile
 * @returns undefined for an empty profile.
 */
export function extremesOf(
  profile: Profile,
  noiseOf: number | Noise,
  resolution: number,
  widest = widestOfTurn,
): Extremes | undefined {
  const { all: noise, own } = typeof noiseOf === 'number' ? { all: noiseOf, own: noiseOf } : noiseOf;
  const bins = filledBins(profile);
  if (bins.length === 0) return undefined;
  const reach = reachFor(profile, bins, (4 * noise) / resolution, widest);
  const places = placesOf(profile, reach);
  const out = standingOut(profile, places, own, resolution);
  // A few narrow features are burrs; many are noise that wanders.
  const narrow = own === noise || out.length <= mostBurrs ? out : standingOut(profile, places, noise, resolution);
  const [low, high] = [topOf(places, -1), topOf(places, 1)];
  return {
    low: Math.min(low.value, ...narrow),
    high: Math.max(high.value, ...narrow),
    u: noise * Math.hypot(low.perNoise, high.perNoise),
    share: reach / (profile.round ? profile.sums[0].length : bins.length),
  };
}

/**
 * Bins to each side that are taken together, so that the middle of a parabola (its variance 2.25/n, derived) is known well
 * enough. How closely readings lie is told by the middle one of the bins, so that a rest, with many readings in one place,
 * does not pass for a dense turn.
 */
function reachFor(profile: Profile, bins: readonly Bin[], steps: number, widest: number): number {
  if (steps <= 1) return 0;
  const all = profile.round ? profile.sums[0].length : bins.length;
  const perBin = (median(bins.map(({ n }) => n)) * bins.length) / all;
  const holding = (readings: number): number => Math.ceil((readings / perBin - 1) / 2);
  const most = Math.max(all * widest, Math.min(all * widest * 1.5, holding(fewestTogether)));
  return Math.min(Math.floor(most), holding(2.25 * steps ** 2));
}

interface Top {
  readonly value: number;
  /** Standard uncertainty for a reading's standard deviation of 1. */
  readonly perNoise: number;
}

/** The highest place (side 1) or the lowest (−1). */
function topOf(places: readonly Place[], side: 1 | -1): Top {
  const outermost = (height: (place: Place) => number): Place | undefined =>
    places.reduce<Place | undefined>(
      (top, place) => (top === undefined || side * (height(place) - height(top)) > 0 ? place : top),
      undefined,
    );
  const plain = outermost(({ all }) => all.value);
  const [one, other] = [outermost(({ halves }) => halves[0].value), outermost(({ halves }) => halves[1].value)];
  if (plain === undefined || one === undefined || other === undefined) throw new RangeError('no place to look at');
  const crossed = (one.halves[1].value + other.halves[0].value) / 2;
  const chosenByNoise = plain.split ? 1 : unsplitDoubt;
  return { value: (plain.all.value + crossed) / 2, perNoise: chosenByNoise * Math.sqrt(plain.all.unitVariance) };
}

/** Without two halves the highest place stays a little too high; this much more doubt covers it (simulated). */
const unsplitDoubt = 1.3;

/**
 * Tops of narrow features: runs of neighbouring bins, two readings or more, that all lie off their surroundings to the
 * same side by more than noise explains.
 */
function standingOut(profile: Profile, places: readonly Place[], noise: number, resolution: number): readonly number[] {
  const found: number[] = [];
  let run = nowhere;
  for (const { bin, all } of places) {
    const n = (profile.counts[0][bin] ?? 0) + (profile.counts[1][bin] ?? 0);
    const value = ((profile.sums[0][bin] ?? 0) + (profile.sums[1][bin] ?? 0)) / n;
    const off = value - all.value;
    const side = Math.abs(off) > resolution + (4.5 * noise) / Math.sqrt(n) ? Math.sign(off) : 0;
    // Sparse readings leave bins empty between them: the next one that holds a reading is the neighbour.
    const goesOn = side === run.side && bin - run.bin <= nextDoor;
    if (!goesOn && run.side !== 0 && run.n >= 2) found.push(run.top);
    run = goesOn ? { bin, side, n: run.n + n, top: further(side, run.top, value) } : { bin, side, n, top: value };
  }
  return run.side !== 0 && run.n >= 2 ? [...found, run.top] : found;
}

/** Ten degrees of a turn in bins of half a degree. */
const nextDoor = 20;

const nowhere = { bin: -2, side: 0, n: 0, top: 0 };

const further = (side: number, a: number, b: number): number => (side > 0 ? Math.max(a, b) : Math.min(a, b));
