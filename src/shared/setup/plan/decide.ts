import { type Aim, inStretch, type Stretch } from './aim.ts';
import type { Decision } from './answer.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { type Outlook, outlookAt } from './outlook.ts';
import { placeOf } from './reading.ts';
import { bestPlaces } from './search.ts';
import type { Place } from './sight.ts';

/** What was decided, with what it was weighed against. */
export interface Choice {
  readonly decision: Decision;
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
  const now = outlookAt(insight.sight, insight.axles, insight.aim, here);
  const holdsBacklash = depthFirst(insight, now);
  const wanted = holdsBacklash ? held(insight, now) : roomIn(insight.aim.backlash);
  const places = bestPlaces(insight, here, input.shimStep_mm, wanted);
  const inWindow = places.filter(({ backlash }) => inStretch(backlash.mean, insight.aim.backlash));
  const best = preferred(inWindow.length > 0 ? inWindow : places, here, insight.aim) ?? now;
  const possible = possibleAt([now, ...inWindow]);
  const decision = decisionFrom({ now, best, possible, trials: input.trials.length });
  return { decision, here: now, chosen: decision === 'leave' ? now : best, possible, holdsBacklash };
}

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

/** What a millimetre less of movement is worth in chance, and a mark in the very middle: they part places nearly as good. */
const perMillimetre = 0.01;
const perCentring = 0.03;

function preferred(places: readonly Outlook[], here: Place, aim: Aim): Outlook | undefined {
  const worth = ({ place, chance, marks }: Outlook): number =>
    chance -
    perMillimetre * (Math.abs(place.pinionOut - here.pinionOut) + Math.abs(place.ringAway - here.ringAway)) -
    perCentring * offCentre(marks.drive.crown.mean, aim.drive.crown) ** 2;
  return places.toSorted((a, b) => worth(b) - worth(a))[0];
}

/** How far from the middle of a stretch, its half width being 1. */
const offCentre = (value: number, [low, high]: Stretch): number => Math.abs(2 * value - low - high) / (high - low);

/** For each axle its best place: the share of axles that any shim could put right. */
function possibleAt(outlooks: readonly Outlook[]): number {
  const count = outlooks[0]?.each.length ?? 0;
  const best = Array.from({ length: count }, (_, axle) => Math.max(...outlooks.map(({ each }) => each[axle] ?? 0)));
  return best.reduce((sum, chance) => sum + chance, 0) / Math.max(1, count);
}

/** Below this chance that any shim helps, the set itself is suspect; on one trial alone only when it is as good as certain. */
const hopeless = 0.45;
const hopelessAtOnce = 0.1;
/** Where it probably stands right, a change must promise at least this much more. */
const probablyRight = 0.5;
const worthAnHour = 0.15;

function decisionFrom(weighed: {
  readonly now: Outlook;
  readonly best: Outlook;
  readonly possible: number;
  readonly trials: number;
}): Decision {
  const { now, best, possible, trials } = weighed;
  const gain = best.chance - now.chance;
  if (now.chance >= probablyRight && gain < worthAnHour) return 'leave';
  if (possible < (trials > 1 ? hopeless : hopelessAtOnce)) return 'suspect';
  const stays = best.place.pinionOut === now.place.pinionOut && best.place.ringAway === now.place.ringAway;
  return stays ? 'leave' : 'change';
}
