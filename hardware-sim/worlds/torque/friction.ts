import { seeded } from '../../seeded.ts';
import type { Random } from '../../seeded.ts';
import type { Noise } from '../noises.ts';
import { sway, wander } from '../noises.ts';
import type { Scene, World } from '../world.ts';
import { anyPull, type Pull, pullScene } from './pull.ts';

/** Falls by so much of the settled torque, to 1/e after so many turns. */
const seating = (random: Random) => {
  const [more, turns] = [random.uniform(0.1, 0.5), random.uniform(0.5, 2.5)];
  return (turned: number): number => 1 + more * Math.exp(-turned / turns);
};

/** Mean of a factor over a stretch of turns. */
const meanOver = (factor: (turns: number) => number, from: number, to: number): number => {
  const many = 400;
  return (
    Array.from({ length: many }, (_, n) => factor(from + ((n + 0.5) * (to - from)) / many)).reduce((a, b) => a + b, 0) /
    many
  );
};

const seatingScene = (seed: number, truthOf: (pull: Pull, seatingAt: (turns: number) => number) => number): Scene => {
  const random = seeded(seed);
  const seatingAt = seating(random);
  const pull = { ...anyPull(random), turns: random.uniform(3, 8), seatingAt };
  const { samples, truths, told } = pullScene(pull, random);
  const value = truthOf(pull, seatingAt);
  return { samples, truths: truths.map((truth) => (truth.of === 'running' ? { ...truth, value } : truth)), told };
};

/** New bearings: the mean over all that was turned is what is asked for. */
export const seatingMean: World = {
  name: 'bearings that seat, their mean',
  kind: 'torque',
  belief:
    'the drag falls by 10–50 % while it is turned, to 1/e in 0.5–2.5 turns; true is the mean of the whole turns made',
  honest: true,
  make: (seed) => seatingScene(seed, (pull, seatingAt) => pull.level * meanOver(seatingAt, 0, Math.floor(pull.turns))),
};

/** The same bearings: what it needs in the last turn made is what is asked for. */
export const seatingLast: World = {
  name: 'bearings that seat, their last turn',
  kind: 'torque',
  belief: 'the same; true is the mean over the last turn made',
  honest: true,
  make: (seed) => seatingScene(seed, (pull, seatingAt) => pull.level * meanOver(seatingAt, pull.turns - 1, pull.turns)),
};

/** Sticks and slips: a saw whose mean is nothing, as long as it stays the same. */
const saw =
  (share: number, period_s: number, phase: number): Noise =>
  (t_s) =>
    2 * share * (((t_s / period_s + phase) % 1) - 0.5);

const rough = (name: string, belief: string, roughness: (random: Random) => Noise): World => ({
  name,
  kind: 'torque',
  belief,
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { truths, ...scene } = pullScene({ ...anyPull(random), roughness: roughness(random) }, random);
    // What roughness does to the start is part of that start; nobody knows it beforehand.
    return { ...scene, truths: truths.filter((truth) => truth.of === 'running') };
  },
});

export const stickSlip = rough('stick and slip', 'a saw of ±5–25 % with a period of 0.08–0.6 s', (random) =>
  saw(random.uniform(0.05, 0.25), 10 ** random.uniform(-1.1, -0.2), random.next()),
);

export const tremor = rough('a hand that trembles', 'a sine of 3–15 % with a period of 0.1–0.7 s', (random) =>
  sway(random.uniform(0.03, 0.15), random.uniform(0.1, 0.7), random),
);

export const wandering = rough('wandering torque', '1–5 % of the torque, with a memory of 0.05–1 s', (random) =>
  wander(random.uniform(0.01, 0.05), 10 ** random.uniform(-1.3, 0), random),
);

/** The hand goes on and stops short, so that a time average dwells where it is slow. */
export const jerky: World = {
  name: 'jerky speed',
  kind: 'torque',
  belief: 'the speed swings by 30–90 %, once to four times a turn',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const strokes = random.next() < 0.3 ? 1 : random.uniform(1, 4);
    return pullScene({ ...anyPull(random), uneven: random.uniform(0.3, 0.9), strokesPerTurn: strokes }, random);
  },
};
