import { type Edge, edgeNames, type Mark } from '../mark/mark.ts';
import type { Choice } from './decide.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { outlookAt } from './outlook.ts';
import { acrossTheFace, type Repaint } from './repaint.ts';
import type { Place } from './sight.ts';
import { listed, millimetres, reached } from './words.ts';

/** Edges at which the drive mark ends in a hard line; of a used set only those it did not have where it ran. */
export function hardEdges({ target, trials }: Pick<PlanInput, 'target' | 'trials'>): readonly Edge[] {
  const mark = trials.at(-1)?.pattern.drive;
  if (mark === undefined) return [];
  const had = target.kind === 'used-set' ? hardIn(target.drive) : [];
  return hardIn(mark).filter((edge) => !had.includes(edge));
}

const hardIn = (mark: Mark): readonly Edge[] => edgeNames.filter((edge) => mark.edges[edge] === 'hard');

/**
 * A mark that would be left is looked at once more: one that runs off both ends of the face, or ends in a hard line, is
 * not where it belongs, whatever its centre and whether or not the cut is known.
 * @returns how to paint it again; nothing where it may be left.
 */
export function paintBeforeLeaving(input: PlanInput): Repaint | undefined {
  const across = input.target.kind === 'new-set' ? acrossTheFace(input) : undefined;
  if (across !== undefined) return across;
  const hard = hardEdges(input);
  if (hard.length === 0) return undefined;
  const where = listed(hard);
  const ends = hard.some((edge) => edge === 'toe' || edge === 'heel');
  const upright = hard.some((edge) => edge === 'root' || edge === 'crown');
  const used = input.target.kind === 'used-set';
  const height = ends && !upright && !used ? 'is at its height, but along the face it ends' : 'ends';
  const verdict = used ? 'it did not have that where it ran' : 'that is not where it belongs';
  return {
    kind: 'overdriven',
    side: 'drive',
    sentence: `The drive mark ${height} in a hard line at the ${where}: ${verdict}, and no shim promises to bring it off.`,
    look: [
      `Look along the ${where} for a burr or a damaged edge.`,
      'Paint again, thinner and with less drag, and see whether the line stays.',
      ...(ends && isUnknown(input)
        ? ['Tell the cut from the teeth: then the plan can say which way to bring it along the face.']
        : []),
    ],
  };
}

const isUnknown = ({ set }: PlanInput): boolean => set.cut === undefined || set.cut === 'not-known';

/**
 * Cut not known, drive on the convex flank, height right, hard at one end of the face: what the ring gear does to the
 * convex flank is the same for every cut (published: TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34), so it is
 * tried as far as the backlash window has room.
 * @returns the choice by that rule; nothing where it does not apply or there is no room for a step.
 */
export function byPublishedRule(insight: Insight, choice: Choice, input: PlanInput): Choice | undefined {
  if (!settles(choice, input) || insight.sight.lengthwise || input.set.driveFlank !== 'convex') return undefined;
  const ends = endsReached(choice, input);
  const [toe, heel] = [ends.includes('toe'), ends.includes('heel')];
  if (input.target.kind !== 'new-set' || toe === heel || crossed(input, heel ? 'toe' : 'heel')) return undefined;
  const { place } = choice.here;
  const at = (steps: number): Place => ({
    pinionOut: place.pinionOut,
    ringAway: place.ringAway + (heel ? -1 : 1) * steps * input.shimStep_mm.side,
  });
  const fits = (steps: number): boolean => {
    const { backlash } = outlookAt(insight.sight, insight.axles, insight.aim, at(steps));
    const [low, high] = insight.aim.backlash;
    return backlash.mean - room >= low && backlash.mean + room <= high;
  };
  const steps = [4, 3, 2, 1].find((count) => fits(count));
  if (steps === undefined) return undefined;
  const chosen = outlookAt(insight.sight, insight.axles, insight.aim, at(steps));
  // Nothing along the face is weighed with the cut not known, so no more than an even chance is told.
  return { ...choice, decision: 'change', chosen: { ...chosen, chance: Math.min(0.5, chosen.chance) }, byRule: true };
}

/**
 * Whether a choice would end the build here. One trial of a set whose cut is not known condemns nothing: where both ways
 * of cutting promise nothing, the mark is treated as one that would be left.
 */
export const settles = ({ decision }: Choice, input: PlanInput): boolean =>
  decision === 'leave' || (decision === 'suspect' && input.trials.length === 1 && isUnknown(input));

/** Ends of the face where the drive mark is hard; where nothing is promised, those it reaches at all. */
const endsReached = ({ decision }: Pick<Choice, 'decision'>, input: PlanInput): readonly Edge[] => {
  const mark = input.trials.at(-1)?.pattern.drive;
  return decision === 'suspect' && mark !== undefined ? reached(mark) : hardEdges(input);
};

/** Coast hard at the other end: the ring gear moves both flanks, and that points to bores or to the set. */
const crossed = ({ trials }: PlanInput, end: Edge): boolean => trials.at(-1)?.pattern.coast.edges[end] === 'hard';

/** Left between the worst station and its limit (mm). */
const room = 0.01;

/** Why the ring gear moves by the published rule, how far, and how little that promises. */
export function ruleReasons({ here, chosen }: Choice, input: PlanInput): readonly string[] {
  const hard = hardEdges(input);
  const end = here.place.ringAway > chosen.place.ringAway ? 'heel' : 'toe';
  const moved = millimetres(chosen.place.ringAway - here.place.ringAway);
  return [
    `The drive mark is at its height, but along the face it ${hard.includes(end) ? 'is hard at' : 'reaches'} the ${end}. On the convex flank a mark at the ${end} goes with a ring gear ${end === 'heel' ? 'too far away' : 'too close'}, whatever the cut (published): the ring gear moves ${moved} ${end === 'heel' ? 'closer' : 'away'}, as far as the backlash window has room.`,
    'How far that brings the mark is not known with the cut not known, so no more than an even chance is told.',
  ];
}
