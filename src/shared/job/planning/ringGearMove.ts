import { type Assembly, type Build, latest } from '../records/build.ts';
import { fail, isNone, ok, type Result } from '../../basics/result.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { setOf } from '../../axle/setOf.ts';
import { binds, sideMoveFor } from '../../axle/plan/sideMove.ts';
import type { ExpectedSeen } from '../records/swap.ts';
import { stepsOf } from './assumed.ts';
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
  const model = setOf(build.makeUp);
  if (!model.ok) return noBacklash;
  const { ringAway_mm, expected } = sideMoveFor(model.value, {
    driveFlank: build.makeUp.driveFlank,
    backlashBasis: read.basis,
    limits: { backlash_mm: [low, high] },
    step_mm: stepsOf(build.makeUp).side,
    backlash: felt,
  });
  // Gears that bind are given room to rock; what they then read nobody knows, and the window is all that is aimed at.
  const mean_mm = isNone(expected) ? (low + high) / 2 : expected.mean_mm;
  const U95_mm = isNone(expected) ? high - low : expected.U95_mm;
  const min_mm = mean_mm - (felt.mean_mm - felt.min_mm);
  const max_mm = mean_mm + (felt.max_mm - felt.mean_mm);
  return ok({
    ringAway_mm,
    expected: { backlash: { mean_mm, min_mm, max_mm, U95_mm }, lengthwise: false },
    brings: min_mm >= low && max_mm <= high,
    binds: binds(felt),
  });
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
