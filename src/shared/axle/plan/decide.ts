import { type Aim, inStretch, type Stretch } from './aim.ts';
import type { Weighed } from './answer.ts';
import { doubtful } from './fit.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { type Outlook, outlookAt, possibleAmong, weighedTogether } from './outlook.ts';
import { grain, priceOf } from './prices.ts';
import { placeOf } from './reading.ts';
import { bestPlaces, levelsIn } from './search.ts';
import type { Place } from './sight.ts';
import { cutOpen, everyCutGains } from './unknownCut.ts';

/** What was decided, with what it was weighed against. */
export interface Choice {
  readonly decision: Weighed;
  readonly here: Outlook;
  readonly chosen: Outlook;
  /** Chance that any of the places looked at is right. */
  readonly possible: number;
  /** Whether the ring gear moves only to hold the backlash, because the depth comes first. */
  readonly holdsBacklash: boolean;
  /** Moved by a published rule and not by what the trials were weighed to. */
  readonly byRule?: boolean;
}

/** Margin that readings of backlash and the model need from a limit (mm), where the window has room for it. */
const margin = 0.02;

export function choose(insight: Insight, input: PlanInput): Choice {
  const last = input.trials.at(-1);
  const here = last === undefined ? { pinionOut: 0, ringAway: 0 } : placeOf(last);
  const stand = outlookAt(insight.sight, insight.axles, insight.aim, here);
  const { aim } = insight;
  const levels = levelsIn(roomIn(aim.backlash), [aim.recorded, stand.backlash.mean]);
  const { places: looked, own } = bestPlaces(insight, here, input.shimStep_mm, levels);
  const [now = stand, ...places] = weighedTogether([stand, ...looked], own);
  const among = placesAmong(insight, now, places, input);
  const weighing: Weighing = { input, aim, now, holds: depthFirst(insight, now) };
  const chosen = preferred(among, weighing) ?? now;
  const possible = possibleAmong([now, ...places], own);
  const decision = decisionFrom(weighing, chosen, possible);
  const holdsBacklash = weighing.holds && heldAt(weighing, chosen);
  return { decision, here: now, chosen: decision === 'leave' ? now : chosen, possible, holdsBacklash };
}

/** Places that move something, are expected inside the window and are worth looking at. */
function placesAmong(insight: Insight, now: Outlook, places: readonly Outlook[], input: PlanInput): readonly Outlook[] {
  const { aim } = insight;
  const keepsDepth = cutOpen(insight) && wellInside(now.marks.drive.crown.mean, aim.drive.crown);
  const mayMove = (there: Outlook): boolean =>
    there.place.pinionOut === now.place.pinionOut ||
    !keepsDepth ||
    everyCutGains(insight, now, there, priceOf(now.place, there.place, input));
  return places.filter(
    (there) =>
      !samePlace(there.place, now.place) &&
      inStretch(there.backlash.mean, aim.backlash) &&
      !pulledForNothing(now.place, there.place) &&
      !(insight.misfit > doubtful && there.inWindow < asLikelyAsNot) &&
      mayMove(there),
  );
}

/** In the inner half of a stretch: a height read at its very end may as well lie outside, and the pinion is moved for that. */
const wellInside = (value: number, stretch: Stretch): boolean => Math.abs(offCentre(value, stretch)) <= 0.5;

/**
 * Where the likeliest axle explains badly what was read, what it says of a long way is worth little, and a place whose
 * window is likelier lost than kept is no plan. Elsewhere such a place may be the way to find out, and the plan says so.
 */
const asLikelyAsNot = 0.5;

/** A movement that is lost in the reading of a mark teaches nothing (mm). */
const lostInReading = 0.03;

/** Whether the pinion would come out for less than any mark can show. */
function pulledForNothing(from: Place, to: Place): boolean {
  const moved = Math.abs(to.pinionOut - from.pinionOut);
  return moved > 0 && moved <= lostInReading;
}

const samePlace = (a: Place, b: Place): boolean => a.pinionOut === b.pinionOut && a.ringAway === b.ringAway;

/** A backlash window without its margins, or its middle where it has no room for them. */
function roomIn([low, high]: Stretch): Stretch {
  const middle = (low + high) / 2;
  return [Math.min(middle, low + margin), Math.max(middle, high - margin)];
}

/** Height before everything: while the drive mark is off in height and the backlash is in its window, the backlash stays. */
const depthFirst = ({ aim }: Insight, { backlash, marks }: Outlook): boolean =>
  inStretch(backlash.mean, aim.backlash) && !inStretch(marks.drive.crown.mean, aim.drive.crown);

interface Weighing {
  readonly input: PlanInput;
  readonly aim: Aim;
  readonly now: Outlook;
  /** Whether the backlash should stay where it is. */
  readonly holds: boolean;
}

/** One side shim step is the finest that backlash can be held to. */
const heldAt = ({ now, input, aim }: Weighing, { backlash }: Outlook): boolean =>
  Math.abs(backlash.mean - kept(now.backlash.mean, roomIn(aim.backlash))) <= input.shimStep_mm.side * 0.75;

const kept = (value: number, [low, high]: Stretch): number => Math.min(high, Math.max(low, value));

/**
 * What parts places nearly as good, in chance: nearness to a right place (where little is sure, the chance alone is
 * too flat to show the way), a drive mark at its height whatever it does along the face, backlash that may leave its
 * window, a millimetre less moved (the more, the less sure the best place is: an unsure plan takes the smaller step), the
 * very middle, a used set's own backlash, a backlash that stays while the depth is still wrong.
 */
const forNearing = 0.5;
const forHeight = 0.45;
/** A window that may be lost counts the more, the nearer a place is to right: far off, the next reading is what is wanted. */
const perWindow = { always: 0.4, nearing: 0.6 } as const;
const perMillimetre = 0.15;
const perCentring = 0.03;
const perOwnBacklash = 0.5;
const forHolding = 0.1;

function preferred(places: readonly Outlook[], weighing: Weighing): Outlook | undefined {
  const { aim, now, input } = weighing;
  const unsure = 1 - places.reduce((most, { chance }) => Math.max(most, chance), 0);
  const cost = (outlook: Outlook): number =>
    priceOf(now.place, outlook.place, input) +
    (perWindow.always + perWindow.nearing * outlook.near) * (1 - outlook.inWindow) +
    perMillimetre * unsure * distance(outlook.place, now.place) +
    perCentring * offCentre(outlook.marks.drive.crown.mean, aim.drive.crown) ** 2 +
    perOwnBacklash * offOwn(outlook.backlash.mean, aim) -
    (weighing.holds && heldAt(weighing, outlook) ? forHolding : 0);
  const worth = (outlook: Outlook): number =>
    outlook.chance + forNearing * outlook.near + forHeight * outlook.height - cost(outlook);
  const sorted = places.toSorted((a, b) => worth(b) - worth(a));
  const [top] = sorted;
  const alone = sorted.find(({ place }) => place.pinionOut === now.place.pinionOut);
  return top !== undefined && alone !== undefined && aloneServes(alone, top, weighing) ? alone : top;
}

/** From here on the ring gear alone is a plan of its own; below it, what a pinion change teaches counts too. */
const likelyRight = 0.6;

/** Whether the pinion earns less than its price beside moving the ring gear alone. */
const aloneServes = (alone: Outlook, top: Outlook, { now, input }: Weighing): boolean =>
  alone.chance >= likelyRight &&
  top.chance - alone.chance <= priceOf(now.place, top.place, input) - priceOf(now.place, alone.place, input);

const distance = (a: Place, b: Place): number =>
  Math.abs(a.pinionOut - b.pinionOut) + Math.abs(a.ringAway - b.ringAway);

/** Where a value lies in a stretch: −1 and 1 at its ends, 0 in the middle. */
const offCentre = (value: number, [low, high]: Stretch): number => (2 * value - low - high) / (high - low);

const offOwn = (mean: number, { recorded, backlash }: Aim): number =>
  recorded === undefined ? 0 : Math.abs(offCentre(recorded, backlash) - offCentre(mean, backlash));

/** Below this chance that any shim helps, the set itself is suspect; a single trial condemns no set. */
const hopeless = 0.45;
/** A first trial says so only where hardly any axle like it has a right place and the depth cannot be bettered. */
const hopelessAtOnce = 0.1;
const betterHeight = 0.3;
/** Where it stands this badly, a change that teaches is worth its price, whatever it promises by itself. */
const surelyWrong = 0.25;
function decisionFrom({ aim, now, input }: Weighing, best: Outlook, possible: number): Weighed {
  // A gear that varies by more than its window is no matter for shims, however few the trials.
  if (aim.backlash[0] > aim.backlash[1]) return 'suspect';
  const stays = best.place.pinionOut === now.place.pinionOut && best.place.ringAway === now.place.ringAway;
  const price = priceOf(now.place, best.place, input);
  if (!stays && best.chance - now.chance > Math.max(grain, price) && !onlyForCoast(now, best, price)) return 'change';
  if (now.chance >= hopeless) return 'leave';
  const first = input.trials.length === 1;
  if (possible < (first ? hopelessAtOnce : hopeless)) {
    return first && best.height - now.height > betterHeight ? 'change' : 'suspect';
  }
  if (!stays && now.chance < surelyWrong && teaches(now, best) && betters(now, best, price)) return 'change';
  return now.chance >= surelyWrong ? 'leave' : 'suspect';
}

const teaches = (now: Outlook, best: Outlook): boolean => distance(now.place, best.place) > lostInReading;

/** What is asked for must promise something better than the present: a right place, the way to one, or the height at least. */
const betters = (now: Outlook, best: Outlook, price: number): boolean =>
  Math.max(best.chance - now.chance, best.near - now.near, best.height - now.height) > Math.max(grain, price);

/** No teardown for a coast edge that would most likely stay: then only what drive and backlash gain counts. */
const onlyForCoast = (now: Outlook, best: Outlook, price: number): boolean =>
  best.coastHard >= 0.5 && best.driveRight - now.driveRight <= price;
