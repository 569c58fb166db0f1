import { seeded } from '../../seeded.ts';
import { shown } from '../display.ts';
import { evenMoments } from '../moments.ts';
import { wander, white } from '../noises.ts';
import type { Sample, World } from '../world.ts';

/** A gauge that lies on the bench, or is handled and never turns anything: no number is the only true one. */
export const nothingTurned: World = {
  name: 'nothing turned',
  kind: 'torque',
  belief:
    'a gauge at rest, up to 0.5 N·m off zero, still, noisy or wandering; bumped for less than 0.3 s now and then; 0 to 3 presses',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const off = random.uniform(-0.5, 0.5);
    const step = 0.01;
    const noise = random.next() < 0.5 ? white(random.uniform(0, 0.02), random) : wander(0.02, 0.4, random);
    const long_s = random.uniform(1, 12);
    const bumps = Array.from({ length: Math.floor(3 * random.next()) }, () => ({
      at: random.uniform(0, long_s),
      high: random.uniform(0.1, 2),
      long_s: random.uniform(0.05, 0.3),
    }));
    const readings = evenMoments(random.uniform(5, 100), long_s, random).map((t): Sample => {
      const bumped = bumps.reduce((sum, { at, high, long_s: wide }) => (t > at && t < at + wide ? sum + high : sum), 0);
      return { t, value: shown(off + bumped + noise(t), step), unit: 'N.m' };
    });
    const presses = Array.from({ length: Math.floor(4 * random.next()) }, (): Sample => ({
      t: random.uniform(0, long_s),
      pedal: 'next',
    }));
    const samples = [...readings, ...presses].toSorted((a, b) => a.t - b.t);
    return {
      samples,
      truths: [
        { of: 'running', value: 'none' },
        { of: 'breakaway', value: 'none' },
      ],
      told: { resolution: step },
    };
  },
};
