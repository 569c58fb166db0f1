import { type Aim, inStretch, type Stretch } from './aim.ts';
import type { Weighed } from './answer.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { type Outlook, outlookAt, possibleAmong, weighedTogether } from './outlook.ts';
import { placeOf } from './reading.ts';
import { bestPlaces } from './search.ts';
import type { Place } from './sight.ts';

/** What was decided, with what it was weighed against. */
export interface Choice {
  readonly decision: Weighed;
  readonly here: Outlook;
  readonly chosen: Outlook;
  /** Chance that any of the places looked at is right. */
  readonly possible: number;
  /** Whether the ring gear moves only to hold the backlash, because the depth comes first. */
  readonly holdsBacklash: boolean;
}

/** Margin that readings of backlash and the model need from a limit (mm), where the window has room for it. */
const margin = 0.01;

export function choose(insight: Insight, input: PlanInput): Choice {
  const last = input.trials.at(-1);
  const here = last === undefined ? { pinionOut: 0, ringAway: 0 } : placeOf(last);
  const stand = outlookAt(insight.sight, insight.axles, insight.aim, here);
  const search = (wanted: Stretch): readonly Outlook[] => bestPlaces(insight, here, input.shimStep_mm, wanted);
  const holding = depthFirst(insight, stand) ? search(held(insight, stand)) : [];
  const [now = stand, ...places] = weighedTogether([stand, ...holding, ...search(roomIn(insight.aim.backlash))]);
  const best = (among: readonly Outlook[]): Outlook | undefined =>
    preferred(
      among.filter(({ backlash }) => inStretch(backlash.mean, insight.aim.backlash)),
      here,
      insight.aim,
    );
  const [holds, anywhere] = [best(places.slice(0, holding.length)), best(places) ?? now];
  const holdsBacklash = holds !== undefined && holds.chance > anywhere.chance - worthMoving;
  const chosen = holdsBacklash ? holds : anywhere;
  const possible = possibleAmong([now, ...places]);
  const window = insight.aim.backlash;
  const decision = decisionFrom({ now, best: chosen, possible, trials: input.trials.length, window });
  return { decision, here: now, chosen: decision === 'leave' ? now : chosen, possible, holdsBacklash };
}

/** So much more chance is worth moving the backlash along with the depth, although it is inside its window. */
const worthMoving = 0.3;

/** A backlash window without its margins, or its middle where it has no room for them. */
function roomIn([low, high]: Stretch): Stretch {
  const middle = (low + high) / 2;
  return [Math.min(middle, low + margin), Math.max(middle, high - margin)];
}

/** Height before everything: while the drive mark is off in height and the backlash is in its window, the backlash stays. */
const depthFirst = ({ aim }: Insight, { backlash, marks }: Outlook): boolean =>
  inStretch(backlash.mean, aim.backlash) && !inStretch(marks.drive.crown.mean, aim.drive.crown);

function held({ aim }: Insight, now: Outlook): Stretch {
  const [low, high] = roomIn(aim.backlash);
  const kept = Math.min(high, Math.max(low, now.backlash.mean));
  return [kept, kept];
}

/**
 * What parts places nearly as good, in chance: a millimetre less moved (the more, the less sure the best place is: an
 * unsure plan takes the smaller step), the very middle, a used set's own backlash.
 */
const perMillimetre = 0.25;
const perCentring = 0.03;
const perOwnBacklash = 0.5;

function preferred(places: readonly Outlook[], here: Place, aim: Aim): Outlook | undefined {
  const unsure = 1 - places.reduce((most, { chance }) => Math.max(most, chance), 0);
  const cost = ({ place, marks, backlash }: Outlook): number =>
    perMillimetre * unsure * distance(place, here) +
    perCentring * offCentre(marks.drive.crown.mean, aim.drive.crown) ** 2 +
    perOwnBacklash *
      Math.abs(offCentre(aim.recorded ?? backlash.mean, aim.backlash) - offCentre(backlash.mean, aim.backlash));
  const worth = (outlook: Outlook): number => outlook.chance - cost(outlook);
  return places.toSorted((a, b) => worth(b) - worth(a))[0];
}

const distance = (a: Place, b: Place): number =>
  Math.abs(a.pinionOut - b.pinionOut) + Math.abs(a.ringAway - b.ringAway);

/** Where a value lies in a stretch: −1 and 1 at its ends, 0 in the middle. */
const offCentre = (value: number, [low, high]: Stretch): number => (2 * value - low - high) / (high - low);

/** Below this chance that any shim helps, the set itself is suspect; a single trial condemns no set. */
const hopeless = 0.45;
/** Where it probably stands right, a change must promise at least this much more. */
const probablyRight = 0.5;
const worthAnHour = 0.15;

function decisionFrom(weighed: {
  readonly now: Outlook;
  readonly best: Outlook;
  readonly possible: number;
  readonly trials: number;
  readonly window: Stretch;
}): Weighed {
  const { now, best, possible, trials, window } = weighed;
  // A gear that varies by more than its window is no matter for shims, however few the trials.
  if (window[0] > window[1]) return 'suspect';
  if (now.chance >= probablyRight && best.chance - now.chance < worthAnHour) return 'leave';
  if (trials > 1 && possible < hopeless) return 'suspect';
  const stays = best.place.pinionOut === now.place.pinionOut && best.place.ringAway === now.place.ringAway;
  if (!stays) return 'change';
  return now.chance < hopeless ? 'suspect' : 'leave';
}
