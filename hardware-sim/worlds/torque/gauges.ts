import { seeded } from '../../seeded.ts';
import { sumOf, wander, white } from '../noises.ts';
import type { Sample, World } from '../world.ts';
import { anyPull, pullScene, stalled } from './pull.ts';

/** Few steps to a reading. */
export const coarse: World = {
  name: 'coarse gauge',
  kind: 'torque',
  belief: 'steps of 0.05 or 0.1 N·m on 0.3–3 N·m',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const step = random.next() < 0.5 ? 0.05 : 0.1;
    const noise = white(random.uniform(0, step / 2), random);
    return pullScene({ ...anyPull(random), level: random.uniform(0.3, 3), step, noise }, random);
  },
};

/** A display read few times a second. */
export const slow: World = {
  name: 'slow gauge',
  kind: 'torque',
  belief: '3–10 readings/s',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    return pullScene({ ...anyPull(random), rate_Hz: random.uniform(3, 10) }, random);
  },
};

/** The gauge itself wanders, at rest too. */
export const wanderingGauge: World = {
  name: 'gauge that wanders',
  kind: 'torque',
  belief: '0.01–0.05 N·m with a memory of 0.05–1 s, at rest too',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const noise = sumOf(
      wander(random.uniform(0.01, 0.05), 10 ** random.uniform(-1.3, 0), random),
      white(0.005, random),
    );
    return pullScene({ ...anyPull(random), noise }, random);
  },
};

/** A busy machine: nothing for a while, then all at once. */
export const busy: World = {
  name: 'busy machine',
  kind: 'torque',
  belief: 'the bytes come in bursts after 0.05–0.5 s of nothing, every second or two',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { samples, ...rest } = pullScene(anyPull(random), random);
    return { ...rest, samples: stalled(samples, { every_s: 1.5, from_s: 0.05, to_s: 0.5 }, random) };
  },
};

/** Readings that are lost, some at a time. */
export const gaps: World = {
  name: 'readings lost',
  kind: 'torque',
  belief: 'one to four gaps of 0.1–1.5 s in which nothing comes, anywhere',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { samples, ...rest } = pullScene(anyPull(random), random);
    const last = samples.at(-1)?.t ?? 0;
    const lost = Array.from({ length: 1 + Math.floor(4 * random.next()) }, () => {
      const from = random.uniform(0, last);
      return { from, to: from + random.uniform(0.1, 1.5) };
    });
    return { ...rest, samples: samples.filter(({ t }) => !lost.some(({ from, to }) => t > from && t < to)) };
  },
};

/** A wild reading now and then. */
export const wild: World = {
  name: 'wild readings',
  kind: 'torque',
  belief: 'one reading in 50–200 is off by 0.5–20 N·m',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const every = random.uniform(50, 200);
    const { samples, ...rest } = pullScene(anyPull(random), random);
    const { resolution } = rest.told;
    const spoilt = samples.map((sample): Sample => {
      if ('pedal' in sample || random.next() > 1 / every) return sample;
      const off = random.uniform(0.5, 20) * (random.next() < 0.5 ? -1 : 1);
      // A gauge shows whole steps of its own, wild ones too.
      return { ...sample, value: Math.round((sample.value + off) / resolution) * resolution };
    });
    return { ...rest, samples: spoilt };
  },
};
