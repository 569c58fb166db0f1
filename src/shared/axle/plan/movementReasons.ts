import type { Mark } from '../mark/mark.ts';
import type { Choice } from './decide.ts';
import type { Places, PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { inStretch, type Stretch } from './aim.ts';
import { bare, listed, millimetres, reached, signed } from './words.ts';

const latest = ({ trials }: PlanInput) => trials.at(-1);

/** Height decides pinion depth; the make-up says where its shim sits and what a thicker one there does. */
export function depthReason(insight: Insight, { here, chosen }: Choice, input: PlanInput): string {
  const mark = latest(input)?.pattern.drive;
  const moved = chosen.place.pinionOut - here.place.pinionOut;
  const ran = input.target.kind === 'used-set' ? input.target.drive : undefined;
  if (moved === 0 || mark === undefined) return keepsDepth(ran !== undefined);
  const move = `the pinion ${moved > 0 ? 'comes out' : 'goes deeper'} by ${millimetres(moved)}${shimWords(moved, input.places)}`;
  if (ran === undefined && cornered(mark) && moved > 0) {
    return `A drive mark at the root and at the toe is a depth fault first: ${move}${toeEases(insight, { here, chosen }) ? ', and the toe is expected to ease with it' : ''}.`;
  }
  const fault = heightFault({ mark, ran, box: insight.aim.drive.crown, believed: here.marks.drive.crown.mean });
  // A movement that goes against the height is made for something else, and says for what.
  if (fault === undefined || fault.out !== moved > 0) return besideHeight(insight, { here, chosen }, move);
  return `The drive mark ${fault.words}: ${move}.`;
}

const keepsDepth = (used: boolean): string =>
  used
    ? 'The pinion keeps its depth: the drive mark is as high as where it ran.'
    : 'The pinion keeps its depth: the drive mark is at its height.';

/** " (thinner shim under the pinion head)": what is done to the shim where its place is known, nothing where it is not. */
function shimWords(moved: number, places: Places | undefined): string {
  if (places?.depth === undefined) return '';
  const thicker = places.depth === 'under-cage' ? moved > 0 : moved < 0;
  return ` (${thicker ? 'thicker' : 'thinner'} shim ${placeOf[places.depth]})`;
}

const placeOf = {
  'under-head': 'under the pinion head',
  'behind-head-cup': 'behind the head bearing cup',
  'under-cage': 'under the pinion cage',
} as const;

/** The case everyone meets. */
const cornered = ({ edges }: Mark): boolean => edges.root !== 'clear' && edges.toe !== 'clear';

const toeEases = ({ sight }: Insight, { here, chosen }: Pick<Choice, 'here' | 'chosen'>): boolean =>
  sight.lengthwise && chosen.marks.drive.heel.mean > here.marks.drive.heel.mean + 0.01;

interface Height {
  readonly mark: Mark;
  /** A used set's own mark: it is judged against that and nothing else. */
  readonly ran: Mark | undefined;
  readonly box: Stretch;
  readonly believed: number;
}

/** What is wrong with the height and which way the pinion has to go for it; nothing where it is near its place. */
function heightFault(height: Height): { readonly words: string; readonly out: boolean } | undefined {
  return height.ran === undefined ? ofNewSet(height) : ofUsedSet(height, height.ran);
}

function ofNewSet({ mark, box, believed }: Height): ReturnType<typeof heightFault> {
  const [root, crown] = [mark.edges.root !== 'clear', mark.edges.crown !== 'clear'];
  if (root && !crown) return { words: 'runs off at the root, so the pinion stands too deep', out: true };
  if (crown && !root) return { words: 'runs off at the crown, so the pinion stands too far out', out: false };
  if (Math.abs(believed - middleOf(box)) < near) return undefined;
  return believed < middleOf(box)
    ? { words: 'sits low, so the pinion stands too deep', out: true }
    : { words: 'sits high, so the pinion stands too far out', out: false };
}

function ofUsedSet({ mark, believed, box }: Height, ran: Mark): ReturnType<typeof heightFault> {
  if (Math.abs(believed - middleOf(box)) < near) return undefined;
  const lower = believed < middleOf(box);
  // What is believed may lie on the other side of where it ran than what was read: then height is not the reason to tell.
  if (lower !== mark.crown < ran.crown) return undefined;
  const beside = `lies ${lower ? 'lower' : 'higher'} than where it ran (${signed(mark.crown)} against ${signed(ran.crown)} in height)`;
  return { words: `${beside}, so the pinion stands ${lower ? 'deeper' : 'farther out'} than it did`, out: lower };
}

/** Nearer than this to its place a height is no reason to move anything (share of the flank; own choice). */
const near = 0.06;
const middleOf = ([low, high]: Stretch): number => (low + high) / 2;

/** Depth moved for the place along the face or for the coast mark: what height pays for it is said. */
function besideHeight(insight: Insight, { here, chosen }: Pick<Choice, 'here' | 'chosen'>, move: string): string {
  const [from, to] = [here.marks.drive.crown.mean, chosen.marks.drive.crown.mean];
  return `${depthIsFor(insight, { here, chosen })} ${move}; in height the drive mark goes from ${signed(from)} to ${signed(to)}.`;
}

function depthIsFor({ sight }: Insight, { here, chosen }: Pick<Choice, 'here' | 'chosen'>): string {
  const along = Math.abs(chosen.marks.drive.heel.mean - here.marks.drive.heel.mean);
  if (here.coastHard - chosen.coastHard > 0.2)
    return 'To bring the coast mark off its hard edge, and not for the drive mark’s height,';
  if (sight.lengthwise && along >= 0.03) return 'To bring the drive mark along the face, and not for its height,';
  return 'The drive mark’s height does not ask for it, but of the axles that fit the readings more come right so:';
}

/** The ring gear sets the backlash; what the pinion does to it is made good at the same time. */
export function ringReason(insight: Insight, { here, chosen, holdsBacklash }: Choice, input: PlanInput): string {
  const moved = chosen.place.ringAway - here.place.ringAway;
  const mean = latest(input)?.backlash.mean_mm ?? here.backlash.mean;
  const [low, high] = input.limits.backlash_mm;
  const move = `the ring gear moves ${millimetres(moved)} ${moved > 0 ? 'away' : 'closer'}`;
  const expected = `about ${millimetres(chosen.backlash.mean)} expected`;
  if (moved === 0) return `The ring gear stays where it is: backlash comes out inside its window, ${expected}.`;
  if (holdsBacklash) {
    return `Backlash is inside its window and stays: ${move} only to make up for what the pinion does to it, ${expected}.`;
  }
  const window = `${bare(low)} to ${millimetres(high)}`;
  if (inStretch(mean, insight.aim.backlash))
    return `For ${insight.sight.lengthwise ? 'backlash and the place along the face' : 'room in the backlash window'} ${move}, ${expected} of ${window}.`;
  const fault = mean <= 0 ? 'The gears bind' : `Backlash of ${millimetres(mean)} does not fit its window of ${window}`;
  return `${fault}: ${move}, ${expected} with the pinion’s share made good.`;
}

/** Along the face is second, and said to be unsure; with the cut not known nothing is said at all. */
export function lengthwiseReason(
  { sight, aim }: Insight,
  { here, chosen }: Choice,
  input: PlanInput,
): string | undefined {
  if (!sight.lengthwise) return undefined;
  const mark = latest(input)?.pattern.drive;
  const [low, high] = aim.drive.heel;
  if (mark === undefined || (mark.heel > low && mark.heel < high)) return undefined;
  const change = chosen.marks.drive.heel.mean - here.marks.drive.heel.mean;
  const ends = reached(mark).filter((edge) => edge === 'toe' || edge === 'heel');
  const end = mark.heel <= low ? 'toe' : 'heel';
  const where =
    input.target.kind === 'used-set'
      ? `lies farther to the ${end} than where it ran`
      : ends.length > 0
        ? `reaches the ${listed(ends)}`
        : `lies too far to the ${end}`;
  return `Along the face the drive mark ${where}${lengthwiseMove(change, mark.heel < (low + high) / 2)}`;
}

/** A change that hardly moves it, that helps, or that height has to be bought with. */
function lengthwiseMove(change: number, wantsHeel: boolean): string {
  if (Math.abs(change) < 0.02) return '; this change hardly moves it there.';
  const to = change > 0 ? 'heel' : 'toe';
  if (change > 0 === wantsHeel) return ` and should move towards the ${to}; that is less sure than its height.`;
  return ` and may move farther towards the ${to}: height comes first, the place along the face after it.`;
}
