import { seeded } from '../../seeded.ts';
import type { Sample, Scene, World } from '../world.ts';
import { anyPull, ends_s, peakOf, pulled, pullScene } from './pull.ts';

/** The hand is on the bar before measuring begins. */
export const shortRest: World = {
  name: 'short rest before the pull',
  kind: 'torque',
  belief: 'the pull begins 0.15–0.4 s after the first reading, the zero up to 0.05 N·m off',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const off = random.uniform(-0.05, 0.05);
    return pullScene({ ...anyPull(random), rest_s: random.uniform(0.15, 0.4), zero: () => off }, random);
  },
};

/** Two or three pulls one after the other, the hand hardly let go between them. */
export const pullAfterPull: World = {
  name: 'pull after pull',
  kind: 'torque',
  belief: 'two or three pulls of the same shaft, 0.15–0.4 s between them; the hardest start counts',
  honest: true,
  make(seed): Scene {
    const random = seeded(seed);
    const pull = { ...anyPull(random), turns: random.uniform(1.2, 3), rest_s: random.uniform(0.08, 0.2) };
    const pulls = random.next() < 0.5 ? 2 : 3;
    const samples: Sample[] = [];
    const starts: number[] = [];
    for (let n = 0, from_s = 0; n < pulls; n += 1) {
      const one = { ...pull, starting: random.uniform(1.1, 1.8), restAfter_s: random.uniform(0.07, 0.2) };
      const first = n === 0 ? { rest_s: 0.6 } : {};
      samples.push(...pulled({ ...one, ...first }, random, from_s));
      starts.push(peakOf(one));
      from_s += ends_s({ ...one, ...first });
    }
    return {
      samples,
      truths: [
        { of: 'running', value: pull.level },
        { of: 'breakaway', value: Math.max(...starts) },
      ],
      told: { resolution: pull.step },
    };
  },
};
