import type { Mark } from '../mark/mark.ts';
import { type Answers, goes, type Move } from './checkAnswers.ts';
import { soonerBetween } from './checkEvidence.ts';
import { lying, upright, whole } from './checkMarks.ts';
import { sides, type TrialSeen } from './input.ts';
import { readingOf } from './misfit.ts';

/** What two trials cannot both be, whatever explains it (docs/command-line.md, `check`). */
type Impossible =
  | 'ring-went-back'
  | 'ring-went-farther'
  | 'ring-fell-short'
  | 'pinion-went-back'
  | 'something-else'
  | 'film-changed';

/** mm of backlash for each mm of ring gear that a dial can show, along the rotation at the heel (common practice 0.5 to 1.0). */
const least = 0.3;
const most = 1.3;
/** A set whose own geometry answers more may answer so much more than that. */
const overGeometry = 1.3;
/** Less ring-gear or pinion movement than this decides nothing (mm). */
const enough = 0.05;
/** What nothing moved may still do to a backlash: seats and caps (mm, own judgement). */
const reassembled = 0.03;

/** Film (mm) where only a sign or a doubt is asked; see checkEvidence.ts. */
const usualFilm = 0.0095;

export function impossibleIn(
  answers: Answers,
  told: Move,
  before: TrialSeen,
  after: TrialSeen,
): Impossible | undefined {
  const rate = impossibleRate(answers, told, before, after);
  if (rate !== undefined) return rate;
  if (againstPinion(answers, told, before, after)) return 'pinion-went-back';
  if (movedAlone(told, before, after)) return 'something-else';
  return shrunk(before, after) ? 'film-changed' : undefined;
}

const doubtOf = (...trials: readonly TrialSeen[]): number =>
  Math.hypot(0.004, ...trials.map(({ backlash }) => Math.max(0.004, (backlash.U95_mm ?? 0.01) / 2)));
const binds = ({ backlash }: TrialSeen): boolean => backlash.min_mm <= 0;

/** Ring gear alone, the pinion's share taken off with a third of doubt: outside 0.3 to 1.3 by more than was read. */
function impossibleRate(answers: Answers, told: Move, before: TrialSeen, after: TrialSeen): Impossible | undefined {
  if (Math.abs(told.ringAway) < enough || binds(before)) return undefined;
  const pinion = answers.backlash.pinionOut * told.pinionOut;
  const sooner = soonerBetween(before, after, usualFilm);
  const ring = after.backlash.mean_mm - before.backlash.mean_mm - pinion - sooner.grows * answers.ofHeelReading;
  const rate = ring / told.ringAway;
  const doubt = (2 * Math.hypot(doubtOf(before, after), pinion / 3, sooner.doubt)) / Math.abs(told.ringAway);
  const [low, high] = [least * answers.ofHeelReading, most * answers.ofHeelReading];
  // Gears that bind read nothing however far they are pressed together: only that they should not bind counts.
  if (binds(after) && told.ringAway < 0) return undefined;
  if (rate + doubt < 0) return 'ring-went-back';
  if (rate + doubt < low) return 'ring-fell-short';
  return rate - doubt > Math.max(high, overGeometry * answers.backlash.ringAway) ? 'ring-went-farther' : undefined;
}

/** Both marks went the other way in height, each by more than its reading's doubt and together by far more. */
function againstPinion(answers: Answers, told: Move, before: TrialSeen, after: TrialSeen): boolean {
  if (Math.abs(told.pinionOut) < enough) return false;
  let together = 0;
  const each = sides.every((side) => {
    const [from, to] = [before.pattern[side], after.pattern[side]];
    const doubt = Math.hypot(readingOf(from, 'crown'), readingOf(to, 'crown'));
    // Half the usual height and a usual film: only the sign and whether it is worth speaking of are asked.
    const foreseen = goes(answers.marks[side].crown, told, 0.32, usualFilm);
    const against = (-Math.sign(foreseen) * (to.crown - from.crown)) / doubt;
    together += against / Math.SQRT2;
    return against > 1;
  });
  return each && together > farAgainst;
}
/** Two marks that stayed where they were read so far back once in some hundred times (standard deviations). */
const farAgainst = 2.5;

function movedAlone(told: Move, before: TrialSeen, after: TrialSeen): boolean {
  if (Math.abs(told.ringAway) > 0.005 || Math.abs(told.pinionOut) > 0.005) return false;
  const backlash = Math.abs(after.backlash.mean_mm - before.backlash.mean_mm);
  if (backlash > reassembled + 2 * doubtOf(before, after)) return true;
  return sides.some((side) => {
    const [from, to] = [before.pattern[side], after.pattern[side]];
    return Math.abs(to.crown - from.crown) > 0.05 + 3 * Math.hypot(readingOf(from, 'crown'), readingOf(to, 'crown'));
  });
}

/** Both flanks' marks half as large or less, in the directions where no edge cut them: a quarter of the film, or wiped off. */
function shrunk(before: TrialSeen, after: TrialSeen): boolean {
  const shares = sides.flatMap((side) => sizeShares(before.pattern[side], after.pattern[side]));
  const mean = shares.reduce((sum, share) => sum + Math.log(share), 0) / shares.length;
  return shares.length >= 2 && mean < Math.log(half);
}
const half = 0.5;

/** What an edge cut off before was larger still, so that such a share counts only where it says shrunk. */
const sizeShares = (from: Mark, to: Mark): readonly number[] =>
  [upright, lying]
    .filter((along) => whole(along, to))
    .map((along) => ({ along, share: Math.max(0.02, to[along.extent]) / Math.max(0.02, from[along.extent]) }))
    .filter(({ along, share }) => whole(along, from) || share < half)
    .map(({ share }) => share);
