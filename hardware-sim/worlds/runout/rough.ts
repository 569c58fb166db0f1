import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** A face with waves of every order, as a worn lathe leaves it. */
export const rough: World = {
  name: 'many waves',
  kind: 'runout',
  belief: 'twelve orders, amplitudes falling with the order, the first no larger than the second in half of them',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const first = random.uniform(0.004, 0.03);
    const fall = random.uniform(0.8, 1.6);
    const waves = Array.from({ length: 12 }, (_, index) => ({
      order: index + 1,
      amplitude_mm: first * (index + 1) ** -fall * (index === 0 ? random.uniform(0.3, 1) : random.uniform(0, 1)),
      high_rad: random.uniform(0, 6.28),
    }));
    const ride = { ...anyRide(random), surface: { waves } };
    return rideScene({ ...ride, noise: white(0.0004, random), presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
