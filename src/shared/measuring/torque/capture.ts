import { seconds, type Torque } from '../../basics/quantity.ts';
import { isPress, type Press, type StreamItem } from '../reading.ts';
import { neighbours_s, newSieve, noiseOf, sift } from '../sieve.ts';
import { breakawayWithin_s } from './breakaway.ts';
import { hasLetGo, letGo, seldom_s, withRestAfter } from './letGo.ts';
import { addToPull, newPull, type Pull, watchTop } from './pull.ts';
import {
  bandOf,
  isClimbing,
  type RestSeen,
  restSeen,
  type RestWatch,
  standsStill,
  startRest,
  stillWithin_Nm,
  watchRest,
} from './restWatch.ts';
import { nothingYet, type Now, quiet, type TorqueCapture, type TorqueEvent } from './state.ts';
import { markTurn, passTime, startPull, turnTo } from './wholeTurns.ts';

/**
 * Takes one reading or press. A press is a turn mark: once round since the last press. The sign of the torque only says
 * which way the shaft is turned; it is reckoned from where the gauge rests.
 */
export function stepTorque(capture: TorqueCapture, item: StreamItem): readonly TorqueEvent[] {
  if (isPress(item)) return press(capture, item);
  const { t, value, angle = Number.NaN } = item;
  capture.readings += 1;
  const events = capture.pull === undefined ? resting(capture, t, value, angle) : pulling(capture, capture.pull, item);
  capture.lastT = t;
  return events;
}

/** What the live display shows: the mean of the pull at hand once it has broken away, and the whole turns so far. */
export function torqueSoFar({ pull, steadyMean, steadyN, turns }: TorqueCapture): {
  readonly pulling: boolean;
  readonly running: Torque | undefined;
  readonly turns: number;
} {
  const running = steadyN > 0 ? (steadyMean as Torque) : undefined;
  return { pulling: pull !== undefined, running, turns: turns.means.length };
}

/** A gauge that first reads more than this is taken to be pulled already, until it shows otherwise, N·m (own assumption). */
const surelyResting_Nm = 0.3;

function resting(capture: TorqueCapture, t: number, value: number, angle: number): readonly TorqueEvent[] {
  const { rest, settings } = capture;
  if (rest === undefined) {
    capture.rest = startRest(settings.resolution, t, value);
    if (Math.abs(value) <= Math.max(surelyResting_Nm, 4 * settings.resolution)) return quiet;
    begin(capture, newPull(t, value, undefined, bandOf(capture.rest)));
    return [{ kind: 'pulling', t: seconds(t) }, ...pulling(capture, capture.pull, { t, value, angle })];
  }
  if (backAtRest(capture, value)) {
    capture.rest = startRest(settings.resolution, t, value);
    return quiet;
  }
  const neverRested = capture.ended === 0 && capture.lastRest === undefined;
  if (neverRested && isClimbing(rest, t, value)) return joinPull(capture, rest, { t, value, angle });
  const left = watchRest(rest, t, value, angle);
  // Not later: a zero that creeps is that of the pull only near it.
  if (rest.lastT - rest.fromT > restAfter_s) capture.pulls = withRestAfter(capture.pulls, restSeen(rest));
  if (!left) return quiet;
  if (stillLettingGo(capture, rest, { t, value })) {
    capture.rest = startRest(settings.resolution, t, value);
    return quiet;
  }
  return [{ kind: 'pulling', t: seconds(t) }, ...leaveRest(capture, rest, { t, value, angle })];
}

/** A pull that was under way when listening began: its rest was not seen, nor where it began. */
function joinPull(capture: TorqueCapture, { fromT, first }: RestWatch, now: Now): readonly TorqueEvent[] {
  const pull = newPull(fromT, now.value - first, undefined, capture.settings.resolution);
  capture.rest = startRest(capture.settings.resolution, now.t, now.value);
  begin(capture, pull);
  return [{ kind: 'pulling', t: seconds(now.t) }, ...pulling(capture, pull, now)];
}

/** A single reading after a pull may have been taken while the hand was letting go: then the torque falls on. */
function stillLettingGo({ lastPull, maybeRest }: TorqueCapture, rest: RestWatch, { t, value }: Now): boolean {
  // A silence right behind it (the machine stood still) hides the falling, not the time it takes.
  const silent = rest.outT - lastPull.ended > lettingGo_s && t - rest.outT < seldom_s;
  const soon = t - lastPull.ended < lettingGo_s || silent;
  const falls = rest.n < 2 && soon && lastPull.side * (value - rest.mean) < 0;
  // Through zero and on: what was let go of may have been the rest.
  return falls && (maybeRest === undefined || value * maybeRest.zero > 0 || Math.abs(value) < stillWithin_Nm);
}

/** A hand lets go within this time, s. */
const lettingGo_s = 0.3;

/** The rest after a pull has shown its zero by then, s. */
const restAfter_s = 1;

/** Two readings in a row have left the rest: a pull. The first of them belongs to it as well. */
function leaveRest(capture: TorqueCapture, rest: RestWatch, now: Now): readonly TorqueEvent[] {
  const seen = passedZero(capture, rest, now.t) ?? restSeen(rest);
  capture.pulls = withRestAfter(capture.pulls, seen);
  const recent = capture.lastRest !== undefined && now.t - capture.lastRest.t < lately_s;
  const before = seen.n < 2 && recent ? capture.lastRest : seen;
  if (seen.n >= 2) capture.lastRest = seen;
  const pull = newPull(rest.outT, now.value, before, bandOf(rest));
  begin(capture, pull);
  const first = { t: rest.outT, value: rest.outValue, angle: rest.outAngle };
  capture.rest = startRest(capture.settings.resolution, first.t, first.value);
  return [...pulling(capture, pull, first), ...pulling(capture, pull, now)];
}

/**
 * A gauge far off zero and pulled the other way passes zero on its way up. What looked like a pull until then was the rest.
 */
function passedZero(capture: TorqueCapture, { fromT }: RestWatch, t: number): RestSeen | undefined {
  const { maybeRest } = capture;
  capture.maybeRest = undefined;
  if (maybeRest === undefined || t - maybeRest.t > passing_s || t - fromT > passing_s) return undefined;
  capture.pulls = [];
  return maybeRest;
}

/** A gauge far off zero that was bumped past it is back where it rested; nothing was pulled. */
function backAtRest(capture: TorqueCapture, value: number): boolean {
  const { maybeRest, lastPull } = capture;
  if (maybeRest === undefined || Math.abs(value - maybeRest.zero) > stillWithin_Nm) return false;
  if (lastPull.ended - maybeRest.t > passing_s) return false;
  capture.pulls = [];
  capture.maybeRest = undefined;
  return true;
}

/** A hand brings its force up within this time, s. */
const passing_s = 0.6;

/** The zero of a rest so long ago still stands for one of which only a single reading came, s. */
const lately_s = 20;

function begin(capture: TorqueCapture, pull: Pull): asserts capture is TorqueCapture & { pull: Pull } {
  capture.pull = pull;
  capture.sieve = newSieve(capture.settings.resolution);
  capture.steadyN = 0;
  capture.below = 0;
  startPull(capture.turns);
}

function pulling(capture: TorqueCapture, pull: Pull, { t, value, angle = Number.NaN }: Now): readonly TorqueEvent[] {
  if (risesFromStill(capture, pull, t, value, angle)) return quiet;
  const torque = pull.side * (value - pull.zero);
  watchTop(pull, { t, value: torque, angle }, capture.settings.resolution);
  countGap(capture, t);
  const { sieve } = capture;
  const spikes = sieve.spikes;
  const passed = sift(sieve, t, torque, angle);
  const early = t - pull.began <= breakawayWithin_s;
  if (!early) capture.spikes += sieve.spikes - spikes;
  const turned = passed ? take(capture, pull, early) : quiet;
  const ended = hasLetGo(capture, pull, t, torque) ? letGo(capture, pull, t, value) : quiet;
  return ended === quiet ? turned : [...turned, ...ended];
}

/**
 * What was taken for a pull may have been the rest: a gauge far off zero when measuring began, or one that crept away.
 * It has stood still, and now the torque leaves it, away from zero, by a third and more.
 */
function risesFromStill(capture: TorqueCapture, pull: Pull, t: number, value: number, angle: number): boolean {
  const { rest, settings } = capture;
  const doubtful = pull.before === undefined || Math.abs((rest?.mean ?? 0) - pull.zero) < 2 * pull.idle;
  if (rest === undefined || !doubtful) return false;
  if (!watchRest(rest, t, value, angle)) return false;
  const level = Math.abs(rest.mean - pull.zero);
  const away = Math.abs(value - pull.zero) - level;
  // On its way up: it is not far enough yet to tell.
  if (away > 0 && away < rising * level && t - rest.outT < passing_s) return false;
  if (standsStill(rest) && away >= rising * level) {
    leaveRest(capture, rest, { t, value, angle });
    return true;
  }
  pull.moved = true;
  if (pull.before === undefined && standsStill(rest)) capture.maybeRest = restSeen(rest);
  capture.rest = startRest(settings.resolution, t, value);
  return false;
}

/** By this share of where it stood a torque has to rise to be a pull that begins. */
const rising = 0.3;

function countGap(capture: TorqueCapture, t: number): void {
  if (t - capture.lastT > neighbours_s) capture.gaps += 1;
}

function take(capture: TorqueCapture, pull: Pull, early: boolean): readonly TorqueEvent[] {
  const { sieve, turns } = capture;
  const { t, value, angle } = sieve;
  if (early) {
    // The climb and the fall of the start are no noise.
    sieve.bends = 0;
    sieve.bendSum = 0;
  } else {
    capture.noise = noiseOf(sieve);
    capture.steadyN += 1;
    capture.steadyMean += (value - capture.steadyMean) / capture.steadyN;
  }
  passTime(turns, t, value);
  const complete = angle === angle && turnTo(turns, angle, value);
  addToPull(pull, t, value, angle === angle ? turns.travel : Number.NaN);
  return complete ? [{ kind: 'turn', t: seconds(t), turns: turns.means.length }] : quiet;
}

function press(capture: TorqueCapture, { t, pedal }: Press): readonly TorqueEvent[] {
  if (pedal === 'again') {
    Object.assign(capture, nothingYet(capture.settings));
    return [{ kind: 'again', t: seconds(t) }];
  }
  // Where the angle is known it counts the turns, and more truly.
  if (capture.pull === undefined || capture.pull.withAngle) return quiet;
  const complete = markTurn(capture.turns);
  return complete ? [{ kind: 'turn', t: seconds(t), turns: capture.turns.means.length }] : quiet;
}
