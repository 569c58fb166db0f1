import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, rideScene } from './turn.ts';

/** The second press comes late, after more than a turn, and nothing measures the angle. */
export const overTurn: World = {
  name: 'second press late',
  kind: 'runout',
  belief: '1.0–1.3 turns between the presses, no angle, white noise up to 1 µm, hand uneven by up to 40 %',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), turns: random.uniform(1, 1.3), withAngle: false };
    const ends_s = ride.starts_s + ride.turns * ride.turn_s;
    const presses_s = [ride.starts_s - random.uniform(0.05, 0.6), ends_s + random.uniform(0, ride.stays_s)];
    return rideScene({ ...ride, noise: white(random.uniform(0, 0.001), random), presses_s }, random);
  },
};
