import { seconds, type Time, type Torque } from '../../basics/quantity.ts';
import { copyOf } from '../runout/profile.ts';
import { isPress, type Press, type StreamItem } from '../reading.ts';
import { lastOfSieve, newSieve, noiseOf, type Sieve, sift } from '../sieve.ts';
import { addToPull, breakawayWithin_s, newPull, type Pull, type PullSummary, summaryOf } from './torquePull.ts';
import { markTurn, noTurns, passTime, startPull, turnTo, type WholeTurns } from './wholeTurns.ts';

export interface TorqueSettings {
  /** Step of the gauge's display. */
  readonly resolution: Torque;
  /** Standard uncertainty of the gauge, where one is known. */
  readonly gaugeU?: Torque;
  /** Standard uncertainty as a share of the reading, for a tool whose error is stated in per cent. */
  readonly gaugeU_share?: number;
  /** Standard uncertainty of a pull scale's arm as a share of it. */
  readonly armU_share?: number;
}

/** For cues while measuring. */
export type TorqueEvent =
  | { readonly kind: 'pulling'; readonly t: Time }
  | { readonly kind: 'let-go'; readonly t: Time }
  | { readonly kind: 'turn'; readonly t: Time; readonly turns: number }
  | { readonly kind: 'again'; readonly t: Time };

/** A torque being measured; changed in place by {@link stepTorque}, and of fixed size whatever the session. */
export interface TorqueCapture {
  readonly settings: TorqueSettings;
  pull: Pull | undefined;
  /** Pulls that are over and showed steady turning; the last 32. */
  pulls: readonly PullSummary[];
  /** Largest torque that began a pull from rest, with its rise from the reading before; undefined while none was seen. */
  breakaway: Breakaway | undefined;
  /** Pulls that are over, steady or not. */
  ended: number;
  turns: WholeTurns;
  /** Breakaway has no neighbours like itself, so wild readings are looked for only after it. */
  sieve: Sieve;
  idleSeen: boolean;
  above: number;
  below: number;
  last: number;
  lastT: number;
  noise: number;
  spikes: number;
  /** Mean of the pull at hand after its first moments. */
  steadyMean: number;
  steadyN: number;
}

interface Breakaway {
  readonly peak: number;
  readonly rise: number;
}

const mostPulls = 32;

export const startTorque = (settings: TorqueSettings): TorqueCapture => ({ settings, ...nothingYet(settings) });

const nothingYet = (settings: TorqueSettings) => ({
  pull: undefined,
  pulls: [],
  breakaway: undefined,
  ended: 0,
  turns: noTurns(),
  sieve: newSieve(settings.resolution),
  idleSeen: false,
  above: 0,
  below: 0,
  last: Number.NaN,
  lastT: Number.NaN,
  noise: 0,
  spikes: 0,
  steadyMean: 0,
  steadyN: 0,
});

const quiet: readonly TorqueEvent[] = Object.freeze([]);

/**
 * Takes one reading or press. A press is a turn mark: once round since the last press. The sign of the torque is left
 * aside, for it only says which way the shaft is turned.
 */
export function stepTorque(capture: TorqueCapture, item: StreamItem): readonly TorqueEvent[] {
  if (isPress(item)) return press(capture, item);
  const value = Math.abs(item.value);
  const began = capture.pull === undefined ? begin(capture, item.t, value) : quiet;
  if (capture.pull === undefined) {
    remember(capture, item.t, value);
    return began;
  }
  const turned = takePulling(capture, capture.pull, item.t, value, item.angle ?? Number.NaN);
  const ended = hasLetGo(capture, value) ? letGo(capture, item.t) : quiet;
  remember(capture, item.t, value);
  return began === quiet && turned === quiet ? ended : [...began, ...turned, ...ended];
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

function remember(capture: TorqueCapture, t: number, value: number): void {
  capture.last = value;
  capture.lastT = t;
}

/** Force that is no longer noise around zero. */
const idleBelow = ({ resolution }: TorqueSettings): number => 4 * resolution;

function begin(capture: TorqueCapture, t: number, value: number): readonly TorqueEvent[] {
  if (value <= idleBelow(capture.settings)) {
    capture.idleSeen = true;
    capture.above = 0;
    return quiet;
  }
  capture.above += 1;
  // Two readings in a row: one alone may be noise. The first of them belongs to the pull as well.
  if (capture.above < 2) return quiet;
  capture.pull = newPull(capture.lastT, capture.idleSeen);
  capture.sieve = newSieve(capture.settings.resolution);
  capture.steadyN = 0;
  startPull(capture.turns);
  addToPull(capture.pull, capture.lastT, capture.last);
  return [{ kind: 'pulling', t: seconds(t) }];
}

function takePulling(capture: TorqueCapture, pull: Pull, t: number, value: number, angle: number) {
  if (t - pull.began <= breakawayWithin_s) return take(capture, pull, t, value, angle);
  const { sieve } = capture;
  const spikes = sieve.spikes;
  const passed = sift(sieve, t, value, angle);
  capture.spikes += sieve.spikes - spikes;
  return passed ? takeSteady(capture, pull) : quiet;
}

function takeSteady(capture: TorqueCapture, pull: Pull): readonly TorqueEvent[] {
  const { t, value, angle } = capture.sieve;
  capture.noise = noiseOf(capture.sieve);
  capture.steadyN += 1;
  capture.steadyMean += (value - capture.steadyMean) / capture.steadyN;
  return take(capture, pull, t, value, angle);
}

function take(capture: TorqueCapture, pull: Pull, t: number, value: number, angle: number): readonly TorqueEvent[] {
  const { turns } = capture;
  passTime(turns, t, value);
  addToPull(pull, t, value);
  const complete = angle === angle && turnTo(turns, angle, value);
  return complete ? [{ kind: 'turn', t: seconds(t), turns: turns.means.length }] : quiet;
}

/** Two readings in a row far under how the pull has been running. */
function hasLetGo(capture: TorqueCapture, value: number): boolean {
  const running = capture.steadyN > 0 ? capture.steadyMean : 0;
  capture.below = value < Math.max(idleBelow(capture.settings), 0.3 * running) ? capture.below + 1 : 0;
  return capture.below >= 2;
}

function letGo(capture: TorqueCapture, t: number): readonly TorqueEvent[] {
  const summary = pullNow(capture);
  if (summary !== undefined) capture.pulls = [...capture.pulls, summary].slice(-mostPulls);
  capture.breakaway = breakawayNow(capture);
  capture.ended += 1;
  capture.pull = undefined;
  capture.idleSeen = true;
  capture.above = 0;
  capture.below = 0;
  return [{ kind: 'let-go', t: seconds(t) }];
}

/** The first start after standing is the hardest, so the largest counts; a touch that turned nothing does not. */
export function breakawayNow({ pull, breakaway }: TorqueCapture): Breakaway | undefined {
  if (pull === undefined || !pull.fromRest || pull.ended - pull.began < breakawayWithin_s) return breakaway;
  return breakaway !== undefined && breakaway.peak >= pull.peak ? breakaway : { peak: pull.peak, rise: pull.rise };
}

/** What the pull at hand shows so far; the capture is not changed. */
export function pullNow({ pull, sieve, noise, settings }: TorqueCapture): PullSummary | undefined {
  if (pull === undefined) return undefined;
  const copy: Pull = { ...pull, profile: copyOf(pull.profile) };
  const rest = { ...sieve };
  if (lastOfSieve(rest)) addToPull(copy, rest.t, rest.value);
  return summaryOf(copy, noise, settings.resolution);
}

function press(capture: TorqueCapture, { t, pedal }: Press): readonly TorqueEvent[] {
  if (pedal === 'again') {
    Object.assign(capture, nothingYet(capture.settings));
    return [{ kind: 'again', t: seconds(t) }];
  }
  if (capture.pull === undefined) return quiet;
  const complete = markTurn(capture.turns);
  return complete ? [{ kind: 'turn', t: seconds(t), turns: capture.turns.means.length }] : quiet;
}
