import { periodOf } from '../../basics/periodicity.ts';
import { mean } from '../../basics/statistics.ts';
import { extremesOf } from '../runout/extremes.ts';
import { addInOrder, copyOf, filledBins, orderedProfile, type Profile } from '../runout/profile.ts';
import { isStarting, type Moment, newStart, type StartWatch, type Top, topOf, watchStart } from './breakaway.ts';
import { type RestSeen, type Zero, zeroOf } from './restWatch.ts';
import { type Part, steadyPart } from './steadyPart.ts';
import { hasNotFallen, isCutOffAbove, newUnfallen, type Unfallen, watchUnfallen } from './unfallen.ts';

/**
 * One pull at the shaft, from first force to letting go; kept in a fixed number of bins. Torques count positive the way
 * it is pulled, from the zero of the rest before it.
 */
export interface Pull {
  readonly profile: Profile;
  /** How far the shaft had gone at each of them, rad; only its order is that of the torques. */
  readonly travel: Profile;
  /** The rest before it: only where there was one is the first peak the breakaway. */
  readonly before: RestSeen | undefined;
  readonly side: 1 | -1;
  /** What is taken off each reading. */
  readonly zero: number;
  /** Torque that is no more than noise about that zero. */
  readonly idle: number;
  readonly began: number;
  readonly start: StartWatch;
  readonly unfallen: Unfallen;
  ended: number;
  withAngle: boolean;
  /** Its torque has been seen to change by more than a gauge at rest does. */
  moved: boolean;
}

/** A pull that leaves a rest, or one that was under way when measuring began. */
export function newPull(t: number, value: number, before: RestSeen | undefined, idle: number): Pull {
  const zero = before?.zero ?? 0;
  return {
    profile: orderedProfile(),
    travel: orderedProfile(),
    before,
    side: value < zero ? -1 : 1,
    zero,
    idle,
    began: t,
    start: newStart(before?.t),
    unfallen: newUnfallen(),
    ended: t,
    withAngle: false,
    moved: before !== undefined,
  };
}

/**
 * @param value torque from the pull's zero, the way it is pulled
 * @param travel how far the shaft has gone, rad; not a number where nothing measures it
 */
export function addToPull(pull: Pull, t: number, value: number, travel: number): void {
  addInOrder(pull.profile, value);
  if (travel === travel) {
    addInOrder(pull.travel, travel);
    pull.withAngle = true;
  }
  pull.ended = t;
}

/** Looks for the top of the start, in every reading as it came: a start is as lonely as a wild reading. */
export function watchTop(pull: Pull, reading: Moment, step: number): void {
  watchUnfallen(pull.unfallen, reading.t, reading.value);
  if (isStarting(pull.start, pull.began, reading.t)) watchStart(pull.start, reading, step);
}

/** What a pull shows once it is over, or so far. */
export interface PullSummary {
  /** Which pull of the session, from 1. */
  readonly nth: number;
  readonly before: RestSeen | undefined;
  /** The rest after it, once it has been seen. */
  readonly after: RestSeen | undefined;
  readonly side: 1 | -1;
  /** What was taken off each reading while pulling. */
  readonly taken: number;
  readonly seconds: number;
  readonly moved: boolean;
  /** Torques while turning steadily, evenly in time, and how far the shaft had gone at each; empty where no angle is known. */
  readonly steady: readonly number[];
  readonly travel: readonly number[];
  /** Standard deviation that the gauge's noise leaves in each of them. */
  readonly noise: number;
  /** Largest minus smallest while turning steadily. */
  readonly ripple: number;
  /** Means of whole periods, where they were found. */
  readonly periods: readonly number[];
  /** Steps of the list in a period. */
  readonly period: number | undefined;
  readonly top: Top | undefined;
  /** What the gauge showed never fell while it was turned. */
  readonly unfallen: boolean;
  /** It stood at its highest number again and again: the end of its range, as it seems. */
  readonly cutOff: boolean;
}

/** The shortest time of steady turning that says anything. */
const shortest_s = 0.5;
/** Nobody turns a pinion faster than two and a half times a second by hand. */
const quickestTurn_s = 0.4;

interface Reading {
  /** Standard deviation of one reading. */
  readonly noise: number;
  readonly resolution: number;
  readonly nth: number;
}

/**
 * Parts a pull into breakaway, steady turning and letting go.
 * @returns undefined when there was no steady turning, too little of it, or the shaft stood still in it.
 */
export function summaryOf(pull: Pull, { noise, resolution, nth }: Reading): PullSummary | undefined {
  const bins = filledBins(pull.profile).map(({ value }) => value);
  const step = (pull.ended - pull.began) / Math.max(1, bins.length - 1);
  const part = steadyPart(bins, step, noise, resolution);
  if (part === undefined || (part.to - part.from) * step < shortest_s) return undefined;
  const steady = bins.slice(part.from, part.to + 1);
  const travel = travelOf(pull, part, bins.length);
  if (travel.length > 0 && Math.abs((travel.at(-1) ?? 0) - (travel[0] ?? 0)) < leastTravel) return undefined;
  const each = noise / Math.sqrt(pull.profile.perBin);
  const period = periodOf(steady, quickestTurn_s / step, each);
  const { before, side, zero, moved } = pull;
  return {
    nth,
    before,
    after: undefined,
    side,
    moved,
    taken: zero,
    seconds: (part.to - part.from) * step,
    steady,
    travel,
    noise: each,
    ripple: rippleOf(pull.profile, part, noise, resolution),
    periods: period === undefined ? [] : wholePeriods(steady, period),
    period,
    top: before === undefined ? undefined : topOf(pull.start),
    unfallen: hasNotFallen(pull.unfallen, pull.ended - pull.began),
    cutOff: isCutOffAbove(pull.unfallen, (Math.max(...steady) - Math.min(...steady)) / resolution),
  };
}

/** A shaft that went less than a twelfth of a turn while it was pulled was held, not turned. */
const leastTravel = Math.PI / 6;

/** Every reading of a pull has an angle or none has; a gauge that loses it in between tells no travel. */
function travelOf({ withAngle, travel }: Pull, { from, to }: Part, many: number): readonly number[] {
  if (!withAngle) return [];
  const all = filledBins(travel).map(({ value }) => value);
  return all.length === many ? all.slice(from, to + 1) : [];
}

function rippleOf(profile: Profile, { from, to }: Part, noise: number, resolution: number): number {
  const steady = copyOf(profile);
  for (const half of [...steady.counts, ...steady.sums]) {
    half.fill(0, 0, from);
    half.fill(0, to + 1);
  }
  const extremes = extremesOf(steady, noise, resolution, 1 / 90);
  return extremes === undefined ? 0 : Math.max(0, extremes.high - extremes.low);
}

const wholePeriods = (values: readonly number[], period: number): readonly number[] =>
  Array.from({ length: Math.floor(values.length / period) }, (_, index) =>
    mean(values.slice(index * period, (index + 1) * period)),
  );

/** The zero under a pull, from the rests on both sides of it; undefined where the gauge was never seen at rest. */
export const zeroUnder = ({ before, after }: Pick<PullSummary, 'before' | 'after'>, step: number): Zero | undefined =>
  zeroOf(before, after, step);

/** What has to be added to the torques of a pull once the rest after it is known as well. */
export const correctionOf = (pull: PullSummary, zero: Zero | undefined): number =>
  zero === undefined ? 0 : pull.side * (pull.taken - zero.zero);
