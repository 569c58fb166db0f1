import type { Stretch } from './aim.ts';
import type { Axle } from './guess.ts';
import type { Insight } from './insight.ts';
import { hasHardEdge, type Seen, seenAt, sharply, worthOf } from './outlook.ts';
import type { OwnPlace } from './ownPlace.ts';
import type { Place } from './sight.ts';

/** Smallest slopes taken for real: height for each mm of pinion, backlash for each mm of ring gear. */
const flattest = { crown: 0.15, backlash: 0.2 } as const;
const nudge = 0.06;
/** Heights and backlashes looked at where the middle is not right: shares of the stretch from its middle. */
const others = [
  [0, 0],
  [-0.6, 0],
  [0.6, 0],
  [0, -0.7],
  [0, 0.7],
] as const;

/**
 * The right place of one axle, found by its own answers: from where its gears were cut to stand, height by the pinion,
 * backlash by the ring gear.
 */
export function ownPlaceOf({ sight, aim }: Insight, axle: Axle): OwnPlace {
  const see = (place: Place): Seen => seenAt(sight, axle, place);
  const cut = { pinionOut: -axle.pinionOut, ringAway: -axle.ringAway };
  const rates = ratesAt(see, cut);
  const towards = (start: Place, height: number, share: number): Place => {
    const seen = see(start);
    const out = bounded((part(aim.drive.crown, height) - seen.marks.drive.crown) / rates.crown);
    const wanted = part(aim.backlash, share) - seen.backlash - rates.shift * out;
    return { pinionOut: start.pinionOut + out, ringAway: start.ringAway + bounded(wanted / rates.backlash) };
  };
  const middle = towards(towards(cut, 0, 0), 0, 0);
  let own: OwnPlace = { place: middle, worth: 0, worthFree: 0 };
  for (const [height, share] of others) {
    const place = height === 0 && share === 0 ? middle : towards(middle, height, share);
    const seen = see(place);
    const worth = worthOf(seen, aim, sharply());
    const free = hasHardEdge(seen.marks) ? 0 : worth;
    const better = worth > own.worth ? { place, worth } : { place: own.place, worth: own.worth };
    own = { ...better, worthFree: Math.max(own.worthFree, free) };
    if (own.worthFree > 0.8) break;
  }
  return own;
}

/** What a millimetre does about a place: height by the pinion, backlash by the ring gear and by the pinion. */
function ratesAt(see: (place: Place) => Seen, at: Place) {
  const here = see(at);
  const out = see({ ...at, pinionOut: at.pinionOut + nudge });
  const away = see({ ...at, ringAway: at.ringAway + nudge });
  return {
    crown: Math.max(flattest.crown, (out.marks.drive.crown - here.marks.drive.crown) / nudge),
    backlash: Math.max(flattest.backlash, (away.backlash - here.backlash) / nudge),
    shift: (out.backlash - here.backlash) / nudge,
  };
}

const part = ([low, high]: Stretch, share: number): number => (low + high) / 2 + (share * (high - low)) / 2;

/** A mark far off its flank has no slope to speak of: half a millimetre at a time. */
const bounded = (by: number): number => Math.max(-0.5, Math.min(0.5, by));
