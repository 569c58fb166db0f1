import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, rideScene } from './turn.ts';

/** The stem is lifted off around the second press: sometimes before it, so that the press falls in the air. */
export const lifted: World = {
  name: 'stem lifted at the end',
  kind: 'runout',
  belief: 'lifted 0.3–4 mm within 0.1–0.5 s, from 0.3 s before to 1 s after the second press; with or without angle',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), turns: random.uniform(1, 1.05), stays_s: 3 };
    const ends_s = ride.starts_s + ride.turns * ride.turn_s;
    const [leaves_s, takes_s] = [ends_s + random.uniform(0.2, 0.8), random.uniform(0.1, 0.5)];
    const far = random.uniform(0.3, 4) * (random.next() < 0.5 ? -1 : 1);
    const off = (t_s: number): number => far * Math.min(1, Math.max(0, (t_s - leaves_s) / takes_s)) ** 1.5;
    const presses_s = [ride.starts_s - random.uniform(0.1, 0.5), leaves_s + random.uniform(-1, 0.3)];
    const landing = off;
    return rideScene({ ...ride, landing, noise: white(0.0004, random), presses_s }, random);
  },
};
