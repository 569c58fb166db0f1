import { seeded } from '../../seeded.ts';
import type { Random } from '../../seeded.ts';
import type { World } from '../world.ts';
import { anyPull, ends_s, type Pull, pullScene } from './pull.ts';

const anyOffset = (random: Random, from: number, to: number): number =>
  random.uniform(from, to) * (random.next() < 0.5 ? -1 : 1);

const scene = (seed: number, change: (pull: Pull, random: Random) => Partial<Pull>) => {
  const random = seeded(seed);
  const pull = anyPull(random);
  return pullScene({ ...pull, ...change(pull, random) }, random);
};

/** Nobody pressed zero, or the gauge hangs otherwise than when it was pressed. */
export const zeroOff: World = {
  name: 'gauge off zero',
  kind: 'torque',
  belief: 'the zero stands ±0.02–0.15 N·m off, at rest and while pulling alike',
  honest: true,
  make: (seed) =>
    scene(seed, (_, random) => {
      const off = anyOffset(random, 0.02, 0.15);
      return { zero: () => off };
    }),
};

/** Far off, on a stiff shaft: a dial nobody set. */
export const zeroFarOff: World = {
  name: 'gauge far off zero',
  kind: 'torque',
  belief: 'the zero stands ±0.2–0.8 N·m off, running torque 1–4 N·m',
  honest: true,
  make: (seed) =>
    scene(seed, (_, random) => {
      const off = anyOffset(random, 0.2, 0.8);
      return { level: random.uniform(1, 4), zero: () => off };
    }),
};

/** Goes away steadily, or warms up. */
export const zeroDrifts: World = {
  name: 'zero that drifts',
  kind: 'torque',
  belief: 'the zero goes 0.02–0.2 N·m over the pull, half of them evenly, half as a part that warms',
  honest: true,
  make: (seed) =>
    scene(seed, (pull, random) => {
      const total = anyOffset(random, 0.02, 0.2);
      const whole_s = ends_s(pull);
      const even = random.next() < 0.5;
      const memory_s = whole_s * random.uniform(0.2, 0.6);
      return { zero: (t_s) => (even ? (total * t_s) / whole_s : total * (1 - Math.exp(-t_s / memory_s))) };
    }),
};

/** The weight of tool and hand lies on the shaft before the pull; after it nothing does. */
export const leaningHand: World = {
  name: 'hand leans before the pull',
  kind: 'torque',
  belief: '0.02–0.15 N·m lie on the shaft at rest before the pull, nothing afterwards',
  honest: false,
  make: (seed) =>
    scene(seed, (pull, random) => {
      const leans = anyOffset(random, 0.02, 0.15);
      return { zero: (t_s) => (t_s < pull.rest_s ? leans : 0) };
    }),
};
