import { type Assembly, type Build, latest } from '../records/build.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { setOf } from '../../axle/setOf.ts';
import { convertedShare } from '../gear/convertedLimit.ts';
import type { ExpectedSeen } from '../records/swap.ts';
import { stepsOf } from './assumed.ts';
import { backlashRates } from './positions.ts';
import { backlashOf } from './seen.ts';
import { windowOf } from './window.ts';

/** How far the ring gear goes for its backlash alone, and what should be read then. */
export interface RingGearMove {
  /** Away from the pinion positive, mm, in whole steps of the side shims. */
  readonly ringAway_mm: number;
  readonly expected: ExpectedSeen;
  /** Whether every station is expected inside the window. */
  readonly brings: boolean;
  /** The gears bind: how far they overlap cannot be read, so that this is only the way and a first step. */
  readonly binds: boolean;
}

/**
 * Backlash for each mm the ring gear moves is known from the mesh to about this share: published and shop figures lie
 * between 0.5 and 0.8, the mesh says 0.9 at the heel.
 */
const rateShare = 0.15;

/**
 * The move of the ring gear that brings the backlash of a trial into the middle of its window, pinion untouched: the daily
 * step before any paint (common practice). Works without a mark.
 * @returns a Problem where no backlash or no window is known, or where the backlash varies by more than the window is wide.
 */
export function ringGearMove(
  build: Build & { readonly makeUp: MakeUp },
  trial: Assembly,
): Result<RingGearMove, 'no-backlash' | 'no-window' | 'varies-too-much'> {
  const read = latest(trial, 'backlash')?.result;
  const felt = read?.kind === 'backlash' ? backlashOf(read) : undefined;
  if (read?.kind !== 'backlash' || felt === undefined) return noBacklash;
  const window = windowOf(build, build.makeUp, read.basis);
  if (!window.ok) return window;
  const [low, high] = window.value.ends;
  if (felt.max_mm - felt.min_mm > high - low) return variesTooMuch(felt.max_mm - felt.min_mm, high - low);
  const rate = backlashRate(build.makeUp, read.basis);
  if (rate === undefined) return noBacklash;
  const step = stepsOf(build.makeUp).side;
  const wanted = (low + high) / 2 - (felt.min_mm + felt.max_mm) / 2;
  const ringAway_mm = Number((Math.round(wanted / rate / step) * step).toFixed(4));
  const change = ringAway_mm * rate;
  const [min_mm, max_mm] = [felt.min_mm + change, felt.max_mm + change];
  const U95_mm = Math.hypot(2 * rateShare * change, felt.U95_mm ?? 0);
  return ok({
    ringAway_mm,
    expected: { backlash: { mean_mm: felt.mean_mm + change, min_mm, max_mm, U95_mm }, lengthwise: false },
    brings: min_mm >= low && max_mm <= high,
    binds: felt.min_mm <= 0,
  });
}

/** Backlash on a basis for each mm of ring gear, mm per mm. */
function backlashRate(makeUp: MakeUp, basis: BacklashBasis): number | undefined {
  const model = setOf(makeUp);
  return model.ok ? backlashRates(model.value).ringAway * convertedShare(model.value, basis) : undefined;
}

const noBacklash = fail({
  kind: 'no-backlash',
  sentence: 'There is no backlash of this trial to start from.',
  remedy: 'Take the backlash at four stations first.',
} as const);

const variesTooMuch = (varies: number, wide: number) =>
  fail({
    kind: 'varies-too-much',
    sentence: `The backlash varies by ${varies.toFixed(3)} mm and its window is ${wide.toFixed(3)} mm wide: no place of the ring gear brings every station into it.`,
    remedy: 'Look at the ring gear’s seat and its runout first.',
  } as const);
