import { isBound, type Mark } from '../mark/mark.ts';
import type { Choice } from './decide.ts';
import { type PlanInput, type Side, sides } from './input.ts';
import type { Insight } from './insight.ts';
import { hardEdges } from './leaving.ts';
import { inHundred, listed, millimetres, reached } from './words.ts';

/** What should be known beside the plan: what was assumed, what is only a bound, what comes close. */
export function warningsFor(insight: Insight, choice: Choice, input: PlanInput): readonly string[] {
  return [
    ...assumptions(insight, choice, input),
    ...sides.flatMap((side) => bound(side, input)),
    ...newHardLines(input),
    ...crossedEnds(choice, input),
    ...binding(input),
    ...lookedAt(input),
    ...closeToLimit(insight, choice),
  ];
}

function assumptions({ sight }: Insight, { byRule }: Choice, { set }: PlanInput): string[] {
  const said: string[] = [];
  if (set.offset_mm === undefined) {
    said.push('The offset was not given and is taken as 0; most axle sets have one, and the plan is surer with it.');
  }
  if (!sight.lengthwise && byRule !== true) {
    said.push('The cut is not known, so nothing is said about the place along the face: it can go either way.');
  }
  return said;
}

/** A mark cut off by an edge says where its centre is not. */
function bound(side: Side, { trials }: PlanInput): string[] {
  const mark = trials.at(-1)?.pattern[side];
  if (mark === undefined || !(isBound(mark, 'heel') || isBound(mark, 'crown'))) return [];
  return [`The ${side} mark is cut off at the ${listed(reached(mark))}: its centre is a bound, not a centre.`];
}

/** A used set keeps the edges it always had; a hard line that it did not have is told. */
function newHardLines(input: PlanInput): string[] {
  const edges = input.target.kind === 'used-set' ? hardEdges(input) : [];
  if (edges.length === 0) return [];
  return [`The drive mark ends in a hard line at the ${listed(edges)} that it did not have where it ran.`];
}

/** Marks that end hard at opposite ends of the face point past the shims (common practice): looking comes before a teardown. */
function crossedEnds({ decision }: Choice, { target, trials }: PlanInput): string[] {
  const last = trials.at(-1);
  if (decision !== 'change' || last === undefined) return [];
  const crossed = (seen: Readonly<Record<Side, Mark>>): boolean =>
    (hardAt(seen.drive, 'heel') && hardAt(seen.coast, 'toe')) ||
    (hardAt(seen.drive, 'toe') && hardAt(seen.coast, 'heel'));
  if (!crossed(last.pattern) || (target.kind === 'used-set' && crossed(target))) return [];
  return [
    'Drive and coast mark end hard at opposite ends of the face: before anything comes apart for a shim, look at the set numbers, at the seats of the cups and whether the bores are in line.',
  ];
}

const hardAt = ({ edges }: Mark, end: 'heel' | 'toe'): boolean => edges[end] === 'hard';

function binding({ trials }: PlanInput): string[] {
  const last = trials.at(-1);
  if (last === undefined || last.backlash.min_mm > 0) return [];
  return [
    'The gears bind, so how far they are pressed together is not known: give the ring gear room and rock it before painting again.',
  ];
}

/** Readings that contradict the others and were found to be as told are believed less. */
export function lookedAt({ trials }: PlanInput): string[] {
  const which = trials.flatMap(({ looked }, index) => (looked === true ? [`trial ${index + 1}`] : []));
  if (which.length === 0) return [];
  return [
    `Looked at and as told: ${listed(which)}. What contradicts there is not explained, so its readings count for less.`,
  ];
}

/** Less surely than this, the plan says that it does not promise the window. */
const promised = 0.9;

function closeToLimit({ aim }: Insight, { decision, chosen: { backlash, inWindow } }: Choice): string[] {
  const [low, high] = aim.backlash;
  if (decision === 'change' && inWindow < promised) {
    return [
      `The window is not promised: of axles that fit the readings, about ${inHundred(inWindow)} have their backlash inside it there. Read the backlash before painting, and move the ring gear alone where it is out.`,
    ];
  }
  const room = Math.min(backlash.mean - low, high - backlash.mean);
  if (room >= 2 * backlash.sd) return [];
  return [
    `Some station may come out of the backlash window: ${millimetres(Math.max(0, room))} is left for an uncertainty of ${millimetres(2 * backlash.sd)}.`,
  ];
}
