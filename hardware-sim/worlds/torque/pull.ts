import type { Random } from '../../seeded.ts';
import { shown } from '../display.ts';
import { arrivals, evenMoments } from '../moments.ts';
import { type Noise, still, white } from '../noises.ts';
import type { Sample, Scene } from '../world.ts';

/** A shaft, a hand and a torque gauge. Torque in N·m, times in seconds. */
export interface Pull {
  /** Mean over a whole turn of what the shaft needs, and how that swings with the angle as a share of it. */
  readonly level: number;
  readonly lobes: readonly { readonly order: number; readonly share: number; readonly at_rad: number }[];
  /** Torque that starts it, over what then turns it. */
  readonly starting: number;
  readonly rest_s: number;
  readonly restAfter_s: number;
  readonly turns: number;
  readonly turn_s: number;
  /** Where the shaft stands when it is pulled, in turns; at its own nought where nothing is said. */
  readonly from_turns?: number;
  /** How long the hand takes to let go, s; quickly where nothing is said. */
  readonly release_s?: number;
  /** 0 even; else by which share the hand's speed swings, and how often a turn. */
  readonly uneven: number;
  readonly strokesPerTurn: number;
  /** What the drag is multiplied by after so many turns: friction that falls while bearings seat. */
  readonly seatingAt?: (turns: number) => number;
  /** What the hand and the friction add as a share of the drag; its mean is nothing. */
  readonly roughness?: Noise;
  /** Where the gauge's zero stands. */
  readonly zero?: Noise;
  readonly noise?: Noise;
  readonly rate_Hz: number;
  readonly step: number;
  readonly withAngle: boolean;
  /** Presses once a turn, from the first twelfth on. */
  readonly marked: boolean;
  readonly way: 1 | -1;
}

const LOAD_s = 0.3;
const YIELD_s = 0.15;
const RELEASE_s = 0.12;

/** Any honest pull: 0.4–4 N·m, once and twice a turn, at the speed of a hand. */
export function anyPull(random: Random): Pull {
  const manner = random.next();
  const step = random.next() < 0.5 ? 0.01 : 0.02;
  return {
    level: random.uniform(0.4, 4),
    lobes: anyLobes(random),
    starting: random.uniform(1.1, 1.8),
    rest_s: random.uniform(0.5, 2),
    restAfter_s: random.uniform(0.5, 1.5),
    turns: random.uniform(2.2, 5),
    turn_s: random.uniform(1.2, 5),
    uneven: random.uniform(0, 0.15),
    strokesPerTurn: random.uniform(1.3, 4),
    noise: white(random.uniform(0, step), random),
    rate_Hz: 10 ** random.uniform(1, 2),
    step,
    withAngle: manner < 0.4,
    marked: manner > 0.75,
    way: random.next() < 0.5 ? 1 : -1,
  };
}

const anyLobes = (random: Random, largest = 0.15): Pull['lobes'] => {
  const first = random.uniform(0, largest);
  return [first, random.uniform(0, first / 2)].map((share, index) => ({
    order: index + 1,
    share,
    at_rad: random.uniform(0, 2 * Math.PI),
  }));
};

/** What the shaft needs at an angle, before anything seats. */
const dragAt = ({ level, lobes }: Pull, angle_rad: number): number =>
  level *
  (1 + lobes.reduce((sum, { order, share, at_rad }) => sum + share * Math.cos(order * (angle_rad - at_rad)), 0));

const releaseOf_s = ({ release_s = RELEASE_s }: Pull): number => release_s;
const turningFor_s = ({ turns, turn_s }: Pull): number => turns * turn_s;
const startsTurning_s = ({ rest_s }: Pull): number => rest_s + LOAD_s;
export const ends_s = (pull: Pull): number =>
  startsTurning_s(pull) + turningFor_s(pull) + releaseOf_s(pull) + pull.restAfter_s;

/** Turns made at a time; the swing of the speed begins at nothing. */
function turnsAt(pull: Pull, t_s: number): number {
  const share = Math.min(1, Math.max(0, (t_s - startsTurning_s(pull)) / turningFor_s(pull)));
  const strokes = Math.max(1, Math.round(pull.strokesPerTurn * pull.turns));
  const swing = (pull.uneven / (2 * Math.PI * strokes)) * (1 - Math.cos(2 * Math.PI * strokes * share));
  return pull.turns * (share + swing) + (pull.from_turns ?? 0);
}

const standsAt_rad = ({ from_turns = 0 }: Pull): number => 2 * Math.PI * from_turns;
export const peakOf = (pull: Pull): number =>
  dragAt(pull, standsAt_rad(pull)) * pull.starting * (pull.seatingAt?.(0) ?? 1);

/** The torque at the shaft at a time: none, loading, breaking away, turning, letting go. */
function torqueAt(pull: Pull, t_s: number, rough: number): number {
  const begins = startsTurning_s(pull);
  if (t_s < pull.rest_s) return 0;
  if (t_s < begins) return (peakOf(pull) * (t_s - pull.rest_s)) / LOAD_s;
  const over = begins + turningFor_s(pull);
  const turns = turnsAt(pull, Math.min(t_s, over));
  const running = dragAt(pull, 2 * Math.PI * turns) * (pull.seatingAt?.(turns) ?? 1);
  const excess =
    (peakOf(pull) - dragAt(pull, standsAt_rad(pull)) * (pull.seatingAt?.(0) ?? 1)) *
    Math.exp((-4 * (t_s - begins)) / YIELD_s);
  const turning = running * (1 + rough) + excess;
  return t_s < over ? turning : Math.max(0, turning * (1 - (t_s - over) / releaseOf_s(pull)));
}

/** When the technician presses: each time the shaft has come round, a moment early or late. */
function pressesOf(pull: Pull, random: Random): readonly number[] {
  const times: number[] = [];
  for (let t = 0, next = 1 / 12; pull.marked && t < ends_s(pull) && next < pull.turns; t += 0.01) {
    if (turnsAt(pull, t) < next) continue;
    times.push(t + random.uniform(0, 0.12));
    next += 1;
  }
  return times;
}

/** What the gauge shows of one pull, from `from_s` on. */
export function pulled(pull: Pull, random: Random, from_s = 0): readonly Sample[] {
  const { roughness = still, zero = still, noise = still, step, withAngle, way } = pull;
  const readings: Sample[] = evenMoments(pull.rate_Hz, ends_s(pull), random).map((t_s) => {
    const torque = way * torqueAt(pull, t_s, roughness(t_s));
    const value = shown(torque + zero(from_s + t_s) + noise(t_s), step);
    const angle_deg = way * 360 * turnsAt(pull, t_s);
    return { t: from_s + t_s, value, unit: 'N.m', ...(withAngle ? { angle_deg } : {}) };
  });
  const presses: Sample[] = pressesOf(pull, random).map((t_s) => ({ t: from_s + t_s, pedal: 'next' }));
  return [...readings, ...presses].toSorted((a, b) => a.t - b.t);
}

/** A scene of one pull. What is true: the mean over a whole turn, and the top of the start. */
export const pullScene = (pull: Pull, random: Random): Scene => ({
  samples: pulled(pull, random),
  truths: [
    { of: 'running', value: pull.level },
    { of: 'breakaway', value: peakOf(pull) },
  ],
  told: { resolution: pull.step },
});

/** The same readings as a busy machine gets them: now and then none for a while, then all that waited at once. */
export function stalled(
  samples: readonly Sample[],
  stalls: { readonly every_s: number; readonly from_s: number; readonly to_s: number },
  random: Random,
): readonly Sample[] {
  const times = arrivals(
    samples.map(({ t }) => t),
    stalls,
    random,
  );
  return samples.map((sample, index) => ({ ...sample, t: times[index] ?? sample.t }));
}
