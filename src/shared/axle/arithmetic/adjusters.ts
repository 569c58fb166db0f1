import { type Length, mm } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';

/** One turn of a threaded side adjuster, in the order it is done. */
interface AdjusterTurn {
  readonly side: 'ring-gear side' | 'other side';
  readonly turn: 'loosen' | 'tighten';
  readonly notches: number;
}

/** Backed off past the goal and come up again, so that the thread's slack lies on the tight side (common practice). */
const overshoot = 2;

/**
 * Moves the ring gear by whole notches at constant preload: one side is loosened first, then the other tightened by as
 * many. Every side ends on a tightening turn.
 * @param notches away from the pinion positive.
 */
export function moveByNotches(notches: number): readonly AdjusterTurn[] {
  const count = Math.abs(Math.round(notches));
  if (count === 0) return [];
  const away = notches > 0;
  const loosened = away ? 'ring-gear side' : 'other side';
  const tightened = away ? 'other side' : 'ring-gear side';
  return [
    { side: loosened, turn: 'loosen', notches: count + overshoot },
    { side: loosened, turn: 'tighten', notches: overshoot },
    { side: tightened, turn: 'tighten', notches: count },
  ];
}

/** What one notch does on this axle, learnt from two backlash readings with known notches between them. */
interface NotchRate {
  readonly backlashPerNotch: Length;
}

/** Backlash for each notch that adjusters have: 0.05 to 0.1 mm is usual (common practice); these bounds are our own. */
const least = 0.005;
const most = 0.3;

const implausible = (perNotch: number): Result<never, 'notch-not-calibrated'> =>
  fail({
    kind: 'notch-not-calibrated',
    field: 'notches',
    sentence: `One notch would change the backlash by ${perNotch.toFixed(3)} mm, which no adjuster does.`,
    remedy: 'Count the notches again, and check the unit of both backlashes.',
  });

/**
 * @param notches moved away from the pinion between the two readings (negative: closer).
 * @returns a Problem where backlash did not follow the notches.
 */
export function calibrateNotch(
  notches: number,
  before: Length,
  after: Length,
): Result<NotchRate, 'notch-not-calibrated'> {
  const perNotch = (after - before) / notches;
  if (perNotch > most || (perNotch > 0 && perNotch < least)) return implausible(perNotch);
  if (Number.isFinite(perNotch) && perNotch > 0) return ok({ backlashPerNotch: mm(perNotch) });
  return fail({
    kind: 'notch-not-calibrated',
    field: 'notches',
    sentence: 'Backlash did not grow as the ring gear was moved away by notches.',
    remedy: 'Check which side was loosened, torque the caps, and read both backlashes at the same station.',
  });
}

/** Notches, away positive, that bring backlash nearest to the wanted one. A notch is the smallest step there is. */
export const notchesFor = (now: Length, wanted: Length, rate: NotchRate): number =>
  Math.round((wanted - now) / rate.backlashPerNotch);
