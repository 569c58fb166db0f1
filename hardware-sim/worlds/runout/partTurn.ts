import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, rideScene } from './turn.ts';

/** Less than a turn, and nothing tells. */
export const partTurn: World = {
  name: 'part of a turn',
  kind: 'runout',
  belief: '0.4–0.9 turns, no angle, with or without presses',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), turns: random.uniform(0.4, 0.9), withAngle: false };
    const ends_s = ride.starts_s + ride.turns * ride.turn_s;
    const presses_s = random.next() < 0.5 ? [ride.starts_s - 0.2, ends_s + 0.2] : [];
    return rideScene({ ...ride, noise: white(0.0003, random), presses_s }, random);
  },
};
