import { unexplained } from './fit.ts';
import type { Choice } from './decide.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { millimetres } from './words.ts';

/** Farther from the middle than this, a mark counts as off in that direction (fraction of the flank). */
const off = 0.12;
/** Nearer to the middle than this, a mark stands at neither end. */
const middling = 0.05;

/** Which signs point where, when no shim helps: gear set, bores, bearings or seating (common practice). */
export function signsIn(insight: Insight, choice: Choice, input: PlanInput): readonly string[] {
  const [low, high] = input.limits.backlash_mm;
  const spread = insight.aim.below + insight.aim.above;
  if (spread > high - low) {
    return [
      `Backlash varies by ${millimetres(spread)} round the gear and its window is only ${millimetres(high - low)} wide: that points to runout, so look at the seating of the ring gear, the case bearings and their bores.`,
    ];
  }
  const signs = [
    ...(insight.misfit > unexplained ? [notFollowing] : []),
    ...disagreement(choice, insight.sight.lengthwise),
  ];
  if (signs.length > 0) return signs;
  // Where many of the axles that fit have a right place, it is the readings that show no way, and not the set.
  return [choice.possible < fewHaveOne ? alone : hardlyFits];
}

/** With fewer than this the set is suspect for itself; with more, it is the readings that show no way. */
export const fewHaveOne = 0.45;

function disagreement({ chosen: { marks } }: Choice, lengthwise: boolean): string[] {
  const { drive, coast } = marks;
  const opposed = (a: number, b: number): boolean =>
    a * b < 0 && Math.max(Math.abs(a), Math.abs(b)) > off && Math.min(Math.abs(a), Math.abs(b)) > middling;
  const signs: string[] = [];
  if (opposed(drive.crown.mean, coast.crown.mean)) signs.push(heightsOpposed);
  if (lengthwise && opposed(drive.heel.mean, coast.heel.mean)) signs.push(crossed);
  if (lengthwise && !opposed(drive.heel.mean, coast.heel.mean) && Math.abs(drive.heel.mean) > off) signs.push(oneEnd);
  return signs;
}

const notFollowing =
  'The marks do not follow the shims as any gear set would: check that each measured pack is where it was written down, that cups are seated and bearings not loose.';
const heightsOpposed =
  'One flank stays high while the other stays low, and no depth serves both: that points to the gear set itself.';
const crossed =
  'One flank stays at the toe and the other at the heel: that points to bores out of line or to the gear set.';
const oneEnd =
  'The marks stay at one end of the face with the backlash in its window: that points to seating, to the bores, or to the gear set.';
const hardlyFits =
  'These marks go together badly on any one set: look first whether film and drag were even and which flank was drawn as which.';
const alone =
  'The drive mark cannot be brought to its place with the backlash in its window: that points to the gear set.';
