import { judge as judgeNumber, type Settling, type Verdict } from '../../measuring/uncertainty/verdict.ts';
import type { Assembly, Measurement } from '../records/build.ts';
import { type BacklashBasis, insideOf, type TorqueBasis } from '../../basics/recorded.ts';
import type { MeasuredResult } from '../records/measurement.ts';
import { endsOf, type Limit, type LimitedQuantity, type SpecSheet } from '../records/specSheet.ts';
import { none, type OrNone } from '../../basics/result.ts';
import type { Check } from './checks.ts';
import { unfinished, valuesFor } from './valuesJudged.ts';

/** One limit held against what was measured for it. */
export interface LimitJudged {
  readonly quantity: LimitedQuantity;
  readonly limit: Limit;
  readonly value: OrNone<number>;
  readonly U95: number;
  readonly verdict: Verdict;
  readonly closeCall: boolean;
  /** How far outside the nearer end, in the unit used inside: above is positive. */
  readonly beyond?: number;
  /** For a close call, what would shrink the doubt most. */
  readonly settle?: Settling;
  /** For a close call, the chance that the true value lies within the limit. */
  readonly chance?: number;
  /** Why there is no verdict, for the technician. */
  readonly why?: string;
  /** The limit is for another basis or state than this reading, so that the two are not compared. */
  readonly otherBasis?: boolean;
}

/**
 * Where a check stands. `recorded`: measured, nothing to hold it against was needed; `no-limit`: measured, and the
 * spec sheet has no limit for it, which is said and stands in nobody's way; the rest as in the verdicts.
 */
export type Standing = Verdict | 'recorded' | 'no-limit';

export interface CheckJudged {
  readonly standing: Standing;
  readonly limits: readonly LimitJudged[];
  readonly closeCall: boolean;
  readonly why?: string;
}

/** Holds the measurement of a check against the spec sheet. Without a measurement the answer is `not-measured`. */
export function judgeCheck(
  check: Check,
  measurement: Measurement | undefined,
  assembly: Assembly,
  specSheet: SpecSheet | undefined,
): CheckJudged {
  if (measurement === undefined) return notMeasured(check, specSheet);
  const { result } = measurement;
  if (result.kind === 'set-numbers')
    return observed(result.pinion === result.ringGear, 'The set numbers differ: a set is used only as a pair.');
  if (result.kind === 'confirmed') return observed(result.yes, result.note ?? 'Answered with no.');
  if (result.kind === 'mark' && result.judgement === 'change')
    return observed(false, 'The mark asks for another shim.');
  const limits = applying(check, specSheet).map((limit) =>
    judgeLimit(limit, measurement, assembly, specSheet?.rule ?? 'simple'),
  );
  if (limits.length > 0) return worst(limits, isJudged(check, assembly));
  if (result.kind === 'backlash') {
    const why = unfinished(result);
    if (why !== undefined) return { standing: 'not-measured', limits: [], closeCall: false, why };
  }
  return { standing: isJudged(check, assembly) ? 'no-limit' : 'recorded', limits: [], closeCall: false };
}

/** Whether a limit would be expected: on set-up bearings nobody prints one for a torque, which is recorded alone. */
const isJudged = ({ limitNeeded, method }: Check, { bearings }: Assembly): boolean =>
  limitNeeded && !(method === 'torque' && bearings === 'set-up');

const observed = (good: boolean, why: string): CheckJudged =>
  good
    ? { standing: 'within', limits: [], closeCall: false }
    : { standing: 'outside', limits: [], closeCall: false, why };

const applying = (check: Check, specSheet: SpecSheet | undefined): readonly Limit[] =>
  (specSheet?.limits ?? []).filter((limit) => check.limits.includes(limit.quantity));

function notMeasured(check: Check, specSheet: SpecSheet | undefined): CheckJudged {
  const limits = applying(check, specSheet).map((limit) => unjudged(limit, 'not measured yet'));
  return { standing: 'not-measured', limits, closeCall: false };
}

const unjudged = (limit: Limit, why: string): LimitJudged => ({
  quantity: limit.quantity,
  limit,
  value: none('not-measured'),
  U95: 0,
  verdict: 'not-measured',
  closeCall: false,
  why,
});

const severity: readonly Verdict[] = ['outside', 'too-close', 'not-measured', 'within'];

/**
 * The worst limit decides. Of several limits for one quantity in different states (a pinion torque with new
 * and with set-up bearings) only that of the state at hand can be judged. Where none of them is for this state,
 * there is a reading and no limit for it, and the reason says which state the limit is for.
 */
function worst(limits: readonly LimitJudged[], isExpected: boolean): CheckJudged {
  const counting = limits.filter((one) => one.otherBasis !== true);
  if (counting.length === 0)
    return { standing: isExpected ? 'no-limit' : 'recorded', limits, closeCall: false, ...whyOf(limits[0]) };
  const standing = severity.find((verdict) => counting.some((one) => one.verdict === verdict)) ?? 'not-measured';
  const closeCall = counting.some((one) => one.closeCall);
  return { standing, limits: counting, closeCall, ...whyOf(counting.find((one) => one.verdict === standing)) };
}

const whyOf = (judged: LimitJudged | undefined): { readonly why?: string } =>
  judged?.why === undefined ? {} : { why: judged.why };

function judgeLimit(limit: Limit, measurement: Measurement, assembly: Assembly, rule: SpecSheet['rule']): LimitJudged {
  if (measurement.result.kind === 'feeler') return judgeFeeler(limit, measurement.result);
  const mismatch = basisMismatch(limit, measurement.result);
  if (mismatch !== undefined) return { ...unjudged(limit, mismatch), otherBasis: true };
  const values = valuesFor(limit, measurement, assembly);
  if (typeof values === 'string') return unjudged(limit, values);
  const ends = endsOf(limit);
  const judged = values.map(({ value, U95, parts }) => ({
    quantity: limit.quantity,
    limit,
    value,
    U95,
    ...judgeNumber(value, U95, ends, rule, parts),
  }));
  const order = (one: LimitJudged) => severity.indexOf(one.verdict) * 2 - (one.closeCall ? 1 : 0);
  const past = (one: LimitJudged) => Math.abs(one.beyond ?? 0);
  return judged.toSorted((a, b) => order(a) - order(b) || past(b) - past(a))[0] ?? unjudged(limit, 'not measured yet');
}

/** Why a limit and a reading are of different bases, so that they are never compared; undefined when they agree. */
function basisMismatch(limit: Limit, result: MeasuredResult): string | undefined {
  if (!('basis' in limit)) return undefined;
  if (result.kind === 'torque' && 'seal' in limit.basis) return torqueMismatch(limit.basis, result.basis);
  if (result.kind !== 'backlash' || !('direction' in limit.basis) || sameBacklashBasis(limit.basis, result.basis))
    return undefined;
  return `the limit is felt ${basisWords(limit.basis)}, this reading ${basisWords(result.basis)}: convert one of them first`;
}

/** Running and starting, seal in and out, new, used and set-up bearings are never compared across. */
export function torqueMismatch(limit: TorqueBasis, reading: TorqueBasis): string | undefined {
  if (limit.basis !== reading.basis) return `the limit is a ${limit.basis} torque, this reading a ${reading.basis} one`;
  if (limit.seal !== reading.seal)
    return `the limit is with the seal ${limit.seal}, this reading with the seal ${reading.seal}`;
  if (limit.bearings !== reading.bearings)
    return `the limit is for ${limit.bearings} bearings, this reading for ${reading.bearings} ones`;
  return undefined;
}

/**
 * A feeler that did not enter shows a gap below its thickness, one that entered a gap of at least it; more it
 * cannot say, so that it decides only against limits on its own side.
 */
function judgeFeeler(limit: Limit, { thickness, entered }: Extract<MeasuredResult, { kind: 'feeler' }>): LimitJudged {
  const value = insideOf(thickness);
  const max = endsOf(limit).max ?? Number.POSITIVE_INFINITY;
  const decided = entered ? value >= max : value <= max;
  if (!decided) return unjudged(limit, 'this feeler cannot tell: use the thickness of the limit');
  return { quantity: limit.quantity, limit, value, U95: 0, verdict: entered ? 'outside' : 'within', closeCall: false };
}

export const sameBacklashBasis = (a: BacklashBasis, b: BacklashBasis): boolean =>
  a.direction === b.direction &&
  (a.at === 'heel' || b.at === 'heel' ? a.at === b.at : Math.abs(a.at.radius_mm - b.at.radius_mm) < 0.5);

export const basisWords = (basis: BacklashBasis): string =>
  `${basis.direction === 'along-rotation' ? 'along the turn' : 'square to the tooth'} at ${basis.at === 'heel' ? 'the heel' : `${basis.at.radius_mm} mm radius`}`;
