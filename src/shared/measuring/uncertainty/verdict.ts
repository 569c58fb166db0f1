import { isNone, type OrNone } from '../../basics/result.ts';
import { conformanceProbability } from './conformity.ts';
import type { UncertaintyPart } from './uncertainty.ts';

/** How the shop decides: `simple`, the reading decides; `guarded`, a guard band of U95 on both sides of a limit. */
export type DecisionRule = 'simple' | 'guarded';

export type Verdict = 'within' | 'outside' | 'too-close' | 'not-measured';

/** At least one end; both in the unit of the value. */
export interface Limit {
  readonly min?: number;
  readonly max?: number;
}

interface Judged {
  readonly verdict: Verdict;
  /** The limit lies inside U95 of the reading: under both rules the screen then says "too close to call". */
  readonly closeCall: boolean;
  /** How far the reading lies past the limit it breaks: positive above the upper, negative below the lower one. */
  readonly beyond?: number;
  /** For a close call, what would shrink the doubt most; only when the parts of the doubt were given. */
  readonly settle?: Settling;
  /** For a close call, the chance that the true value lies within the limits; only when the parts were given. */
  readonly chance?: number;
}

/** What would settle a close call. */
export type Settling = (typeof settlings)[number];
export const settlings = ['finer-gauge', 'more-repeats', 'truer-stem'] as const;

/**
 * Judges one reading against one limit (guard band after JCGM 106:2012 and ISO 14253-1).
 *
 * A reading at the limit is within. Sums of binary fractions miss the limit by a hair (0.1 + 0.2 against 0.3), so
 * anything nearer than a billionth counts as at it; no gauge reads that far.
 *
 * @param U95 expanded uncertainty of the value, in its unit; zero means no doubt and so no close call.
 * @param parts the parts of that uncertainty, to say what would settle a close call.
 * @throws RangeError for a limit without any end, or numbers that are not numbers: defects, not measurements.
 */
export function judge(
  value: OrNone<number>,
  U95: number,
  limit: Limit,
  rule: DecisionRule,
  parts: readonly UncertaintyPart[] = [],
): Judged {
  if (isNone(value)) return { verdict: 'not-measured', closeCall: false };
  requireJudgeable(value, U95, limit);
  const inside = roomInside(value, limit);
  const closeCall = nearestEnd(value, limit) < U95 - slack(U95);
  const beyond = inside < -slack(value) ? distancePast(value, limit) : undefined;
  const settle = closeCall ? settledBy(parts) : undefined;
  const chance = closeCall ? chanceWithin(value, limit, parts) : undefined;
  return {
    verdict: decide(inside, rule === 'guarded' ? U95 : 0, slack(value)),
    closeCall,
    ...(beyond === undefined ? {} : { beyond }),
    ...(settle === undefined ? {} : { settle }),
    ...(chance === undefined ? {} : { chance }),
  };
}

function decide(inside: number, guard: number, slack: number): Verdict {
  if (inside >= guard - slack) return 'within';
  return inside < -guard - slack || guard === 0 ? 'outside' : 'too-close';
}

/** Room left to the nearer limit; negative when past one. */
const roomInside = (value: number, { min = -Infinity, max = Infinity }: Limit): number =>
  Math.min(value - min, max - value);

const nearestEnd = (value: number, { min = -Infinity, max = Infinity }: Limit): number =>
  Math.min(Math.abs(value - min), Math.abs(value - max));

const distancePast = (value: number, { min = -Infinity, max = Infinity }: Limit): number =>
  value > max ? value - max : value - min;

const slack = (size: number): number => 1e-9 * Math.max(1, Math.abs(size));

/**
 * The largest group of parts is worth working on: what repeats leave (and a turn that was not whole), how the stem stood,
 * or the gauge itself.
 */
function settledBy(parts: readonly UncertaintyPart[]): Settling | undefined {
  const variance: Record<Settling, number> = { 'finer-gauge': 0, 'more-repeats': 0, 'truer-stem': 0 };
  for (const part of parts) variance[groupOf(part)] += part.u ** 2;
  const [largest] = settlings.toSorted((a, b) => variance[b] - variance[a]);
  return largest === undefined || variance[largest] === 0 ? undefined : largest;
}

/** Parts add in squares; nothing else is known about the true value (JCGM 106:2012, 7.2). */
const chanceWithin = (value: number, limit: Limit, parts: readonly UncertaintyPart[]): number | undefined =>
  parts.length === 0 ? undefined : conformanceProbability(value, Math.hypot(...parts.map(({ u }) => u)), limit);

const groupOf = ({ name, nu }: UncertaintyPart): Settling => {
  if (name.startsWith('stem ')) return 'truer-stem';
  return nu !== undefined || name === 'part of a turn' ? 'more-repeats' : 'finer-gauge';
};

function requireJudgeable(value: number, U95: number, { min, max }: Limit): void {
  if (min === undefined && max === undefined) throw new RangeError('A limit needs at least one end');
  if (!Number.isFinite(value) || !(U95 >= 0)) throw new RangeError(`Cannot judge ${value} with U95 ${U95}`);
}
