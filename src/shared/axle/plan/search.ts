import { inStretch, type Stretch } from './aim.ts';
import type { Axle } from './guess.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { type Outlook, outlookAt, seenAt, sharply, worthOf } from './outlook.ts';
import type { OwnPlace } from './ownPlace.ts';
import { ownPlaceOf } from './ownPlaces.ts';
import type { Place } from './sight.ts';

/** What a search found. */
interface Found {
  readonly places: readonly Outlook[];
  /** Each axle's own right place: what is possible at all, however far from the others'. */
  readonly own: readonly OwnPlace[];
}

/** Axles that look for promising places before all of them are asked. */
const scouts = 14;
/** Pinion positions looked at first, over where the axles would have to stand. */
const depths = 13;
const kept = 7;

/**
 * The best places to stand. First each axle is asked where it would have to stand; the stretch between is walked
 * coarsely with a few axles, and the best of it is weighed over all of them, then once more finely about the best.
 * @param levels mean backlashes worth aiming for (mm).
 */
export function bestPlaces(
  insight: Insight,
  here: Place,
  step: PlanInput['shimStep_mm'],
  levels: readonly number[],
): Found {
  const own = insight.axles.map((axle) => ownPlaceOf(insight, axle));
  const shims = shimsFor(insight, here, step);
  const { few } = shims;
  const coarse = pinionsOver(own, here, step.pinion).flatMap((pinionOut) => placesWith(shims, pinionOut, levels));
  const promising = coarse
    .map((place) => ({ place, worth: blurredWorth(insight, few, place) }))
    .toSorted((a, b) => b.worth - a.worth)
    .slice(0, kept)
    .map(({ place }) => place);
  const weighed = weigh(insight, promising);
  const [top] = weighed;
  if (top === undefined) return { places: weighed, own };
  const about = [-2, -1, 0, 1, 2].map((steps) => top.place.pinionOut + steps * step.pinion);
  const fine = about
    .flatMap((pinionOut) => placesWith(shims, inSteps(pinionOut, here.pinionOut, step.pinion), levels))
    .filter((place) => !promising.some((other) => same(place, other)))
    .map((place) => ({ place, worth: blurredWorth(insight, few, place) }))
    .toSorted((a, b) => b.worth - a.worth)
    .slice(0, kept)
    .map(({ place }) => place);
  // Moving the ring gear alone is always looked at: it costs the least.
  const alone = levels.length === 0 ? [] : placesWith(shims, here.pinionOut, levels);
  return { places: [...weighed, ...weigh(insight, distinct([...fine, ...alone]))], own };
}

interface Shims {
  readonly insight: Insight;
  readonly few: readonly Axle[];
  readonly here: Place;
  readonly step: PlanInput['shimStep_mm'];
  /** Backlash for each mm the ring gear moves away, as these few have it on the average. */
  readonly perAway: number;
}

/** Small enough to see the slope of backlash, large enough to be above the grain of a thinned flank (mm). */
const nudge = 0.06;

function shimsFor(insight: Insight, here: Place, step: Shims['step']): Shims {
  const few = everyFew(insight.axles);
  const moved = { ...here, ringAway: here.ringAway + nudge };
  const perAway = (backlashOver(insight, few, moved) - backlashOver(insight, few, here)) / nudge;
  return { insight, few, here, step, perAway: Math.max(0.1, perAway) };
}

const backlashOver = ({ sight }: Insight, few: readonly Axle[], place: Place): number =>
  few.reduce((sum, axle) => sum + seenAt(sight, axle, place).backlash, 0) / few.length;

const everyFew = (axles: readonly Axle[]): readonly Axle[] =>
  Array.from(
    { length: Math.min(scouts, axles.length) },
    (_, n) => axles[Math.floor((n * axles.length) / scouts)],
  ).filter((axle) => axle !== undefined);

/** Whole shim steps over the stretch in which the axles would have to stand, but for the outermost of them. */
function pinionsOver(own: readonly OwnPlace[], here: Place, step: number): readonly number[] {
  const wanted = own.map(({ place }) => place.pinionOut).toSorted((a, b) => a - b);
  const at = (share: number): number => wanted[Math.round(share * (wanted.length - 1))] ?? here.pinionOut;
  const [low, high] = [at(0.04), at(0.96)];
  const across = Array.from({ length: depths }, (_, n) => low + ((high - low) * n) / (depths - 1));
  return [...new Set([...across, here.pinionOut].map((pinionOut) => inSteps(pinionOut, here.pinionOut, step)))];
}

/** At one depth the ring gear where each wanted backlash comes out, as these few axles have it on the average. */
function placesWith(
  { insight, few, here, step, perAway }: Shims,
  pinionOut: number,
  levels: readonly number[],
): Place[] {
  const reads = backlashOver(insight, few, { pinionOut, ringAway: here.ringAway });
  const middle = levels[levels.length >> 1] ?? reads;
  const ringAway = here.ringAway + (middle - reads) / perAway;
  const there = backlashOver(insight, few, { pinionOut, ringAway });
  return levels.map((level) => ({
    pinionOut,
    ringAway: inSteps(ringAway + (level - there) / perAway, here.ringAway, step.side),
  }));
}

/** The blur lets the way towards a right place show from far off. */
const blurredWorth = ({ sight, aim }: Insight, few: readonly Axle[], place: Place): number =>
  few.reduce((sum, axle) => sum + worthOf(seenAt(sight, axle, place), aim, sharply(2)), 0) / few.length;

/** Backlashes over the wanted stretch, and a used set's own and the present one where they lie inside. */
export function levelsIn(wanted: Stretch, also: readonly (number | undefined)[]): readonly number[] {
  const inside = also.filter((level) => level !== undefined).filter((level) => inStretch(level, wanted));
  return [...new Set([...between(wanted, 3), ...inside])].toSorted((a, b) => a - b);
}

const weigh = ({ sight, axles, aim }: Insight, places: readonly Place[]): Outlook[] =>
  distinct(places)
    .map((place) => outlookAt(sight, axles, aim, place))
    .toSorted((a, b) => b.chance - a.chance);

const same = (a: Place, b: Place): boolean => a.pinionOut === b.pinionOut && a.ringAway === b.ringAway;

function distinct(places: readonly Place[]): Place[] {
  const byName = new Map(places.map((place) => [`${place.pinionOut.toFixed(4)} ${place.ringAway.toFixed(4)}`, place]));
  return [...byName.values()];
}

const between = ([low, high]: Stretch, count: number): number[] =>
  high - low < 1e-6 ? [low] : Array.from({ length: count }, (_, index) => low + ((high - low) * index) / (count - 1));

/** A whole number of shim steps from where it stands; totals free of the last binary digits. */
function inSteps(wanted: number, from: number, step: number): number {
  const moved = from + Math.round((wanted - from) / step) * step;
  return Number(moved.toFixed(6));
}
