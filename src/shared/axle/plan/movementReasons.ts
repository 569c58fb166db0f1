import type { Mark } from '../mark/mark.ts';
import type { Choice } from './decide.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { inStretch } from './aim.ts';
import { listed, millimetres, reached } from './words.ts';

const latest = ({ trials }: PlanInput) => trials.at(-1);

/** Height decides pinion depth; the usual place of its shim is under the head, and thicker there sets it deeper. */
export function depthReason(insight: Insight, { here, chosen }: Choice, input: PlanInput): string {
  const mark = latest(input)?.pattern.drive;
  const moved = chosen.place.pinionOut - here.place.pinionOut;
  if (moved === 0 || mark === undefined) return 'The pinion keeps its depth: the drive mark is at its height.';
  const shim = `${moved > 0 ? 'a thinner' : 'a thicker'} shim under the head, where that is its place`;
  const move = `the pinion ${moved > 0 ? 'comes out' : 'goes deeper'} by ${millimetres(moved)} (${shim})`;
  if (cornered(mark) && moved > 0) {
    return `A drive mark at the root and at the toe is a depth fault first: ${move}${toeEases(insight, { here, chosen }) ? ', and the toe is expected to ease with it' : ''}.`;
  }
  return `The drive mark ${heightOf(mark, here.marks.drive.crown.mean)}: ${move}.`;
}

/** The case everyone meets. */
const cornered = ({ edges }: Mark): boolean => edges.root !== 'clear' && edges.toe !== 'clear';

const toeEases = ({ sight }: Insight, { here, chosen }: Pick<Choice, 'here' | 'chosen'>): boolean =>
  sight.lengthwise && chosen.marks.drive.heel.mean > here.marks.drive.heel.mean + 0.01;

function heightOf(mark: Mark, believed: number): string {
  const [root, crown] = [mark.edges.root !== 'clear', mark.edges.crown !== 'clear'];
  if (root && !crown) return 'runs off at the root, so the pinion stands too deep';
  if (crown && !root) return 'runs off at the crown, so the pinion stands too far out';
  if (Math.abs(believed) < 0.06) return 'is near its height, and a small step serves it better';
  return believed < 0 ? 'sits low, so the pinion stands too deep' : 'sits high, so the pinion stands too far out';
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
  const window = `${low.toFixed(2)} to ${millimetres(high)}`;
  if (inStretch(mean, insight.aim.backlash))
    return `For backlash and the place along the face ${move}, ${expected} of ${window}.`;
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
  const where =
    ends.length > 0 ? `reaches the ${listed(ends)}` : `lies too far to the ${mark.heel < low ? 'toe' : 'heel'}`;
  return `Along the face the drive mark ${where}${lengthwiseMove(change, mark.heel < (low + high) / 2)}`;
}

/** A change that hardly moves it, that helps, or that height has to be bought with. */
function lengthwiseMove(change: number, wantsHeel: boolean): string {
  if (Math.abs(change) < 0.02) return '; this change hardly moves it there.';
  const to = change > 0 ? 'heel' : 'toe';
  if (change > 0 === wantsHeel) return ` and should move towards the ${to}; that is less sure than its height.`;
  return ` and may move farther towards the ${to}: height comes first, the place along the face after it.`;
}
