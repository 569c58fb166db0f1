import type { Mark } from '../mark/mark.ts';
import type { TrialSeen } from './input.ts';
import { type Answers, goes, type MarkAnswer, type Move } from './checkAnswers.ts';
import type { Story } from './checkStories.ts';
import { sides } from './input.ts';
import { type Along, halfOf, lying, meetsSooner, middleOf, upright, visibleMiddle, whole } from './checkMarks.ts';
import { readingOf } from './misfit.ts';

/**
 * How probable what was read in the later of two trials is under a story, after the earlier one. First order on
 * purpose: this must not believe the planner's own figures, only directions, and sizes as far as they are known.
 */
export function evidenceFor(story: Story, answers: Answers, before: TrialSeen, after: TrialSeen): number {
  if (story.kind === 'something-else') return anyBacklash * anyPlace ** (answers.lengthwise ? 4 : 2);
  const sizes = sizeEvidence(story, before, after);
  const overFilms = films.reduce((sum, { film, share }) => {
    const each = sides.map((side) => {
      const flank = story.readOff[side];
      const seen = { before: before.pattern[flank], after: after.pattern[side], move: story.move, film };
      return markEvidence(answers, answers.marks[flank], seen);
    });
    const backlash = backlashEvidence(answers, story.move, { before, after, film });
    return sum + share * each.reduce((product, one) => product * one, backlash);
  }, 0);
  return sizes * overFilms;
}

/**
 * How much larger one flank's mark is than the other's stays when shims are changed, whatever the film: curvatures do
 * not move. Logarithms of extents are compared where no edge cuts any of the four marks.
 */
function sizeEvidence({ readOff }: Story, before: TrialSeen, after: TrialSeen): number {
  return [upright, lying].reduce((product, along) => {
    const marks = [before, after].flatMap(({ pattern }) => sides.map((side) => pattern[side]));
    if (!marks.every((mark) => whole(along, mark) && mark[along.extent] > leastExtent)) return product;
    const ratio = (drive: Mark, coast: Mark): number => Math.log(drive[along.extent] / coast[along.extent]);
    const expected = ratio(before.pattern[readOff.drive], before.pattern[readOff.coast]);
    const doubts = marks.map((mark) => readingOf(mark, along.place) / mark[along.extent]);
    const sd = Math.hypot(sizesKeep, ...doubts);
    const off = (ratio(after.pattern.drive, after.pattern.coast) - expected) / sd;
    return product * mixed(misread.place, anyPlace, normal(off) / sd);
  }, 1);
}

/** Marks smaller than this say nothing of curvature (share). */
const leastExtent = 0.1;
/** Spread of how well two flanks' sizes keep to each other while both move over their flanks (logarithm, own judgement). */
const sizesKeep = 0.1;

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

function backlashEvidence(
  { backlash, ofHeelReading }: Answers,
  move: Move,
  { before, after, film }: { readonly before: TrialSeen; readonly after: TrialSeen; readonly film: number },
): number {
  const sooner = soonerBetween(before, after, film);
  const [ring, pinion] = [backlash.ringAway * move.ringAway, backlash.pinionOut * move.pinionOut];
  const doubt = (trial: TrialSeen): number => Math.max(0.004, (trial.backlash.U95_mm ?? 0.01) / 2);
  const sd = Math.hypot(
    backlashShare.ringAway * ring,
    backlashShare.pinionOut * pinion,
    doubt(before),
    doubt(after),
    reassembled_mm,
    sooner.doubt * ofHeelReading,
  );
  const expected = before.backlash.mean_mm + backlashShare.mean * ring + pinion + sooner.grows * ofHeelReading;
  const off = (after.backlash.mean_mm - expected) / sd;
  const [boundBefore, boundAfter] = [binds(before), binds(after)];
  // A mesh that binds reads nothing, however far it is pressed together: only one side of the figure counts.
  if (boundBefore && boundAfter) return anyBacklash;
  if (boundBefore) return mixed(misread.backlash, anyBacklash, anyBacklash * above(off));
  if (boundAfter) return mixed(misread.backlash, anyBacklash, anyBacklash * above(-off));
  return mixed(misread.backlash, anyBacklash, normal(off) / sd);
}

/** What a backlash gains because marks come back to the middle, and how unsure that is: sizes behind an edge are guessed. */
export function soonerBetween(
  before: TrialSeen,
  after: TrialSeen,
  film: number,
): { readonly grows: number; readonly doubt: number } {
  const [from, to] = [meetsSooner(before, after, film), meetsSooner(after, before, film)];
  return { grows: from - to, doubt: 0.35 * Math.abs(from - to) + 0.08 * Math.max(from, to) };
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
