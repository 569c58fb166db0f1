import { seconds } from '../../basics/quantity.ts';
import { copyOf } from '../runout/profile.ts';
import { lastOfSieve } from '../sieve.ts';
import { breakawayWithin_s, topOf } from './breakaway.ts';
import { addToPull, type Pull, type PullSummary, summaryOf } from './pull.ts';
import { restSeen, type RestSeen, standsStill, startRest } from './restWatch.ts';
import type { Stroke, TorqueCapture, TorqueEvent } from './state.ts';

const mostPulls = 32;

/** Two readings in a row far under how the pull has been running; one, where few come. */
export function hasLetGo(capture: TorqueCapture, pull: Pull, t: number, torque: number): boolean {
  const running = capture.steadyN > 0 ? capture.steadyMean : 0;
  capture.below = torque < Math.max(pull.idle, 0.3 * running) ? capture.below + 1 : 0;
  const seldom = t - capture.lastT > seldom_s && t - pull.began > breakawayWithin_s;
  return capture.below >= (seldom ? 1 : 2);
}

/** Readings further apart may see a short rest only once, s. */
export const seldom_s = 0.12;

export function letGo(capture: TorqueCapture, pull: Pull, t: number, value: number): readonly TorqueEvent[] {
  const summary = pullNow(capture);
  if (summary !== undefined) capture.pulls = [...capture.pulls, summary].slice(-mostPulls);
  else if (t - pull.began > knock_s) capture.strokes = [...capture.strokes, strokeOf(pull)].slice(-mostPulls);
  capture.ended += 1;
  capture.lastPull = { side: pull.side, ended: t };
  capture.pull = undefined;
  const { rest } = capture;
  if (pull.before === undefined && !pull.moved && rest !== undefined && standsStill(rest)) {
    capture.maybeRest = restSeen(rest);
  }
  capture.rest = startRest(capture.settings.resolution, t, value);
  return [{ kind: 'let-go', t: seconds(t) }];
}

/** What is over sooner was a knock, s. */
const knock_s = 0.35;

const strokeOf = (pull: Pull): Stroke => ({
  before: pull.before,
  top: pull.before === undefined ? undefined : topOf(pull.start),
});

/** What the pull at hand shows so far; the capture is not changed. */
export function pullNow({ pull, sieve, noise, settings, turns }: TorqueCapture): PullSummary | undefined {
  if (pull === undefined) return undefined;
  const copy: Pull = { ...pull, profile: copyOf(pull.profile), travel: copyOf(pull.travel), start: { ...pull.start } };
  const rest = { ...sieve };
  if (lastOfSieve(rest)) addToPull(copy, rest.t, rest.value, pull.withAngle ? turns.travel : Number.NaN);
  return summaryOf(copy, { noise, resolution: settings.resolution, nth: turns.pulls });
}

/** The first rest after a pull, once it is over. */
export function withRestAfter(pulls: readonly PullSummary[], seen: RestSeen): readonly PullSummary[] {
  const last = pulls.at(-1);
  if (last === undefined || last.after !== undefined || seen.n < 2) return pulls;
  return [...pulls.slice(0, -1), { ...last, after: seen }];
}
