import type { MeshModel } from '../mesh/meshModel.ts';
import { answersOf, type Answers, type Move } from './checkAnswers.ts';
import { evidenceFor } from './checkEvidence.ts';
import { impossibleIn } from './checkRules.ts';
import { storiesOf, type StoryKind, toldMove } from './checkStories.ts';
import { edgeNames, type Mark } from '../mark/mark.ts';
import { newSetRight } from '../mark/right.ts';
import { inStretch } from './aim.ts';
import { type PlanInput, sides, type TrialSeen } from './input.ts';

/** What contradicts, and between which trials (1 is the first). */
export interface Contradiction {
  readonly kind: Exclude<StoryKind, 'as-told'> | 'film-changed' | 'nothing-explains';
  /** Other explanations, likelier first. */
  readonly also: readonly Contradiction['kind'][];
  readonly between: readonly [number, number];
  readonly told: Move;
  readonly before: TrialSeen;
  readonly after: TrialSeen;
}

/**
 * Below this chance that things went as the shims say, nothing is planned on them: looking once costs minutes, a shim the
 * wrong way an hour (own choice; what it finds and what it cries for nothing stands in docs/before-planning.md).
 */
const believable = 0.82;
/** An explanation is named beside the first where it is at least this share as likely. */
const worthNaming = 0.15;

/**
 * Looks at every two trials of a build before anything is planned on them: mm for mm against what shims do, both marks
 * against the pinion, readings that changed though nothing moved, marks that shrank.
 * @returns the latest contradiction, or nothing where the trials can be believed.
 */
export function contradictionIn(input: PlanInput, model: MeshModel): Contradiction | undefined {
  if (input.trials.length < 2) return undefined;
  const answers = answersOf(input, model);
  const pairs = input.trials.flatMap((after, later) =>
    input.trials
      .slice(0, later)
      .map((before, earlier) => ({ before, after, between: [earlier + 1, later + 1] as const })),
  );
  // What was looked at and found as told is not asked again; reading.ts makes it count for less.
  const asked = pairs.filter(({ between: [, later] }) => later > lookedUpTo(input));
  for (const pair of asked.toReversed()) {
    const found = contradictionBetween(answers, pair);
    if (found !== undefined && !(found.kind === 'flanks-exchanged' && bothInPlace(input))) return found;
  }
  return undefined;
}

/**
 * Where a new set's marks both lie where a drive mark belongs, it is of no matter which of them is which: nothing is moved by
 * either, and nobody is sent to look for it.
 */
const bothInPlace = ({ target, trials }: PlanInput): boolean => {
  const last = trials.at(-1)?.pattern;
  return target.kind === 'new-set' && last !== undefined && sides.every((side) => inPlace(last[side]));
};

const inPlace = (mark: Mark): boolean =>
  inStretch(mark.heel, newSetRight.heel) &&
  inStretch(mark.crown, newSetRight.crown) &&
  edgeNames.every((edge) => mark.edges[edge] !== 'hard');

/** The last trial (1 is the first) that was looked at and found as told; 0 where none was. */
export const lookedUpTo = ({ trials }: Pick<PlanInput, 'trials'>): number =>
  trials.findLastIndex(({ looked }) => looked === true) + 1;

interface Pair {
  readonly before: TrialSeen;
  readonly after: TrialSeen;
  readonly between: readonly [number, number];
}

function contradictionBetween(answers: Answers, pair: Pair): Contradiction | undefined {
  const told = toldMove(pair.before, pair.after);
  const rule = impossibleIn(answers, told, pair.before, pair.after);
  const weighed = weigh(answers, told, pair);
  const asTold = weighed.find(({ kind }) => kind === 'as-told')?.chance ?? 1;
  if (rule === undefined && asTold >= believable) return undefined;
  const others = weighed.flatMap(({ kind, chance }) => (kind === 'as-told' ? [] : [{ kind, chance }]));
  const [first] = others;
  // Where the trials could be believed but for the rule, the rule names what is wrong; else the likeliest explanation.
  const kind = rule !== undefined && asTold >= believable ? rule : (first?.kind ?? 'something-else');
  const also = others.filter((one) => one.kind !== kind && one.chance >= worthNaming * (first?.chance ?? 1));
  return { kind, also: also.map((one) => one.kind), told, ...pair };
}

/** Chances of every kind of explanation, likeliest first. */
function weigh(
  answers: Answers,
  told: Move,
  { before, after }: Pick<Pair, 'before' | 'after'>,
): readonly { readonly kind: StoryKind; readonly chance: number }[] {
  const byKind = new Map<StoryKind, number>();
  let all = 0;
  for (const story of storiesOf(told)) {
    const weight = story.prior * evidenceFor(story, answers, before, after);
    byKind.set(story.kind, (byKind.get(story.kind) ?? 0) + weight);
    all += weight;
  }
  return [...byKind].map(([kind, weight]) => ({ kind, chance: weight / all })).toSorted((a, b) => b.chance - a.chance);
}
