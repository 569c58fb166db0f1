import type { Mark } from '../mark/mark.ts';
import type { TrialSeen } from './input.ts';
import { type Answers, goes, type MarkAnswer, type Move } from './checkAnswers.ts';
import type { Story } from './checkStories.ts';
import { sides } from './input.ts';
import { readingOf } from './misfit.ts';

/**
 * How probable what was read in the later of two trials is under a story, after the earlier one. First order on
 * purpose: this must not believe the planner's own figures, only directions, and sizes as far as they are known.
 */
export function evidenceFor(story: Story, answers: Answers, before: TrialSeen, after: TrialSeen): number {
  if (story.kind === 'something-else') return anyBacklash * anyPlace ** (answers.lengthwise ? 4 : 2);
  const marks = films.reduce((sum, { film, share }) => {
    const each = sides.map((side) => {
      const flank = story.readOff[side];
      const seen = { before: before.pattern[flank], after: after.pattern[side], move: story.move, film };
      return markEvidence(answers, answers.marks[flank], seen);
    });
    return sum + share * each.reduce((product, one) => product * one, 1);
  }, 0);
  return marks * backlashEvidence(answers, story.move, before, after);
}

/** Density of a backlash (1/mm) and of a place (1/share) about which nothing is known. */
const anyBacklash = 1 / 0.8;
const anyPlace = 1;
/** So often a figure is simply misread, and then may be anything. */
const misread = { backlash: 0.004, place: 0.04 } as const;

/** Film times what a rolled mark is larger than its ellipse, as 5 to 40 µm are unknown: seven values about 9 µm. */
const films = [-1.5, -1, -0.5, 0, 0.5, 1, 1.5].map((z, _, all) => ({
  film: 0.0095 * Math.exp(0.5 * z),
  share: Math.exp((-z * z) / 2) / all.reduce((sum, one) => sum + Math.exp((-one * one) / 2), 0),
}));

/** Published and shop figures lie at 0.5 to 1.0 of the geometry's (docs/plan.md); the pinion's share is known to a third. */
const backlashShare = { mean: 0.85, ringAway: 0.18, pinionOut: 0.3 } as const;
/** What putting it together again does to a backlash (mm): seats and caps (own judgement). */
const reassembled_mm = 0.008;

function backlashEvidence({ backlash }: Answers, move: Move, before: TrialSeen, after: TrialSeen): number {
  const [ring, pinion] = [backlash.ringAway * move.ringAway, backlash.pinionOut * move.pinionOut];
  const doubt = (trial: TrialSeen): number => Math.max(0.004, (trial.backlash.U95_mm ?? 0.01) / 2);
  const sd = Math.hypot(
    backlashShare.ringAway * ring,
    backlashShare.pinionOut * pinion,
    doubt(before),
    doubt(after),
    reassembled_mm,
  );
  const expected = before.backlash.mean_mm + backlashShare.mean * ring + pinion;
  const off = (after.backlash.mean_mm - expected) / sd;
  const [boundBefore, boundAfter] = [binds(before), binds(after)];
  // A mesh that binds reads nothing, however far it is pressed together: only one side of the figure counts.
  if (boundBefore && boundAfter) return anyBacklash;
  if (boundBefore) return mixed(misread.backlash, anyBacklash, anyBacklash * above(off));
  if (boundAfter) return mixed(misread.backlash, anyBacklash, anyBacklash * above(-off));
  return mixed(misread.backlash, anyBacklash, normal(off) / sd);
}

const binds = ({ backlash }: TrialSeen): boolean => backlash.min_mm <= 0;

interface Seen {
  readonly before: Mark;
  readonly after: Mark;
  readonly move: Move;
  readonly film: number;
}

function markEvidence(
  { lengthwise }: Answers,
  answer: { readonly crown: MarkAnswer; readonly heel: MarkAnswer },
  seen: Seen,
): number {
  const height = alongEvidence(upright, answer.crown, seen, 0);
  return lengthwise ? height * alongEvidence(lying, answer.heel, seen, faceDoubt) : height;
}

/** A direction on the flank, with the edges that cut a mark there. */
interface Along {
  readonly place: 'crown' | 'heel';
  readonly extent: 'height' | 'length';
  readonly low: 'root' | 'toe';
  readonly high: 'crown' | 'heel';
}
const upright: Along = { place: 'crown', extent: 'height', low: 'root', high: 'crown' };
const lying: Along = { place: 'heel', extent: 'length', low: 'toe', high: 'heel' };

/** How far the answer along the face may be off for each mm moved (share): it can turn round with cutter and bias. */
const faceDoubt = 0.35;
/** Spread of each flank's own answer, and of a mark's size between paintings (logarithmic). */
const own = { answer: 0.25, size: 0.12 } as const;

/** Averages over what the earlier mark leaves open: its true middle where an edge cut it, its size, this flank's answer. */
function alongEvidence(along: Along, answer: MarkAnswer, { before, after, move, film }: Seen, doubt: number): number {
  const [doubtBefore, doubtAfter] = [readingOf(before, along.place), readingOf(after, along.place)];
  const moved = Math.hypot(move.pinionOut, move.ringAway) * doubt;
  const sd = Math.hypot(doubtAfter, moved, modelDoubt);
  const size = halfOf(along, before, after);
  const total = draws.reduce((sum, [a, b, c]) => {
    const half = size * Math.exp(own.size * a);
    const start = middleOf(along, before, half) + doubtBefore * b;
    const end = start + Math.exp(own.answer * c) * goes(answer, move, half, film);
    return sum + normal((after[along.place] - visibleMiddle(end, half)) / sd) / sd;
  }, 0);
  return mixed(misread.place, anyPlace, total / draws.length);
}

const modelDoubt = 0.02;

const cutAt = (mark: Mark, edge: Along['low' | 'high']): boolean => mark.edges[edge] !== 'clear';
const whole = (along: Along, mark: Mark): boolean => !cutAt(mark, along.low) && !cutAt(mark, along.high);

/** Half extent (share): of a mark that no edge cuts, else of the larger one and a little more. */
function halfOf(along: Along, before: Mark, after: Mark): number {
  const uncut = [before, after].find((mark) => whole(along, mark));
  const extent = uncut?.[along.extent] ?? 1.15 * Math.max(before[along.extent], after[along.extent]);
  return Math.min(0.6, Math.max(0.08, extent / 2));
}

/** Where the middle of a mark lies: behind an edge that cuts it, counted from the end that can be seen. */
function middleOf(along: Along, mark: Mark, half: number): number {
  const [low, high] = [cutAt(mark, along.low), cutAt(mark, along.high)];
  if (low === high) return mark[along.place];
  const visible = mark[along.extent] / 2;
  return low
    ? Math.min(mark[along.place], mark[along.place] + visible - half)
    : Math.max(mark[along.place], mark[along.place] - visible + half);
}

/** Middle of what lies on the flank of a mark about `middle`. */
function visibleMiddle(middle: number, half: number): number {
  const within = (place: number): number => Math.max(-0.5, Math.min(0.5, place));
  return (within(middle - half) + within(middle + half)) / 2;
}

const normal = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
/** Chance that a standard normal lies above `z` (logistic approximation, good to 0.01). */
const above = (z: number): number => 1 / (1 + Math.exp(1.702 * z));
const mixed = (share: number, uniform: number, density: number): number => share * uniform + (1 - share) * density;

/** Evenly filling triples in place of chance (additive recurrence on the root of x⁵ = x + 1), as standard normals by Box–Muller. */
const draws = Array.from({ length: 64 }, (_, n) => {
  const at = (power: number): number => ((n + 0.5) * 1.1673039782614187 ** -power) % 1;
  const [p, q, r, s] = [at(1), at(2), at(3), at(4)];
  const [one, two] = [Math.sqrt(-2 * Math.log(1 - p)), Math.sqrt(-2 * Math.log(1 - r))];
  return [one * Math.cos(2 * Math.PI * q), one * Math.sin(2 * Math.PI * q), two * Math.cos(2 * Math.PI * s)] as const;
});
