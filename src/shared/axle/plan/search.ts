import { inStretch, type Stretch } from './aim.ts';
import type { Axle } from './guess.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { type Outlook, outlookAt, seenAt, worthOf } from './outlook.ts';
import type { Place } from './sight.ts';

/** Positions tried: at each pinion position the ring gear is put where a wanted backlash comes out. */
interface Rule {
  readonly here: Place;
  readonly step: PlanInput['shimStep_mm'];
  /** Mean backlashes worth aiming for (mm). */
  readonly backlashes: readonly number[];
}

/** Farthest pinion movement looked at in one change, and its first coarse stride (mm). */
const reach = 0.8;
const stride = 0.05;
/** How many axles put places forward, and how many each: the likeliest know little of how far off they may be. */
const proposers = 5;
const kept = 5;
const fineOffsets = [-0.06, -0.03, 0, 0.03, 0.06];

/**
 * The best places to stand, best first. Coarse over a few axles, then weighed over all of them, then once more finely
 * about the best.
 * @param wanted mean backlashes worth aiming for (mm).
 */
export function bestPlaces(insight: Insight, here: Place, step: Rule['step'], wanted: Stretch): readonly Outlook[] {
  const count = Math.floor(reach / stride);
  const pinions = Array.from({ length: 2 * count + 1 }, (_, index) => here.pinionOut + (index - count) * stride);
  const coarse: Rule = { here, step, backlashes: levels(insight, wanted, 3) };
  const weighed = weigh(
    insight,
    proposing(insight).flatMap((axle) => promising(insight, axle, placesFor(insight, axle, coarse, pinions))),
  );
  const [top, axle] = [weighed[0], insight.likeliest[0]];
  if (top === undefined || axle === undefined) return weighed;
  const fine: Rule = { here, step, backlashes: levels(insight, wanted, 5) };
  const about = fineOffsets.map((offset) => top.place.pinionOut + offset);
  return [...weighed, ...weigh(insight, placesFor(insight, axle, fine, about))];
}

/** The likeliest axles and some of those drawn, evenly taken. */
function proposing({ likeliest, axles }: Insight): readonly Axle[] {
  const more = Math.max(0, proposers - likeliest.length);
  const drawn = Array.from({ length: more }, (_, n) => axles[Math.floor(((n + 0.5) * axles.length) / more)]);
  return [...likeliest, ...drawn.filter((axle) => axle !== undefined)];
}

/** An axle's own best of these places. The blur lets the way towards a right place show from far off. */
const promising = ({ sight, aim }: Insight, axle: Axle, places: readonly Place[]): readonly Place[] =>
  places
    .map((place) => ({ place, worth: worthOf(seenAt(sight, axle, place), aim, sight.lengthwise, 3) }))
    .toSorted((a, b) => b.worth - a.worth)
    .slice(0, kept)
    .map(({ place }) => place);

/** Backlashes over the wanted stretch, and a used set's own where it lies inside. */
function levels({ aim }: Insight, wanted: Stretch, count: number): readonly number[] {
  const own = aim.recorded !== undefined && inStretch(aim.recorded, wanted) ? [aim.recorded] : [];
  return [...own, ...between(wanted, count)];
}

const weigh = ({ sight, axles, aim }: Insight, places: readonly Place[]): Outlook[] =>
  distinct(places)
    .map((place) => outlookAt(sight, axles, aim, place))
    .toSorted((a, b) => b.chance - a.chance);

function distinct(places: readonly Place[]): Place[] {
  const byName = new Map(places.map((place) => [`${place.pinionOut.toFixed(4)} ${place.ringAway.toFixed(4)}`, place]));
  return [...byName.values()];
}

const between = ([low, high]: Stretch, count: number): number[] =>
  high - low < 1e-6 ? [low] : Array.from({ length: count }, (_, index) => low + ((high - low) * index) / (count - 1));

/** Small enough to see the slope of backlash, large enough to be above the grain of a thinned flank (mm). */
const nudge = 0.05;

function placesFor(
  insight: Insight,
  axle: Axle,
  { here, step, backlashes }: Rule,
  pinions: readonly number[],
): Place[] {
  const backlashIn = (place: Place): number => seenAt(insight.sight, axle, place).backlash;
  const now = backlashIn(here);
  const slope = Math.max(0.1, (backlashIn({ ...here, ringAway: here.ringAway + nudge }) - now) / nudge);
  return pinions.flatMap((pinion) => {
    const pinionOut = inSteps(pinion, here.pinionOut, step.pinion);
    const held = backlashIn({ pinionOut, ringAway: here.ringAway });
    return backlashes.map((backlash) => {
      const first = here.ringAway + (backlash - held) / slope;
      const second = first + (backlash - backlashIn({ pinionOut, ringAway: first })) / slope;
      return { pinionOut, ringAway: inSteps(second, here.ringAway, step.side) };
    });
  });
}

/** A whole number of shim steps from where it stands; totals free of the last binary digits. */
function inSteps(wanted: number, from: number, step: number): number {
  const moved = from + Math.round((wanted - from) / step) * step;
  return Number(moved.toFixed(6));
}
