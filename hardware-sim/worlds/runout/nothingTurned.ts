import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** A gauge that stands on a gear that nobody turns, or that hangs in the air: no number is the only true one. */
export const nothingTurned: World = {
  name: 'nothing turned',
  kind: 'runout',
  belief: 'the gear stands still or the stem hangs in the air; one reading, a few, or many; 0 to 3 presses',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), surface: { waves: [] }, uneven: 0, withAngle: random.next() < 0.2 };
    const stands = {
      ...ride,
      turns: ride.withAngle ? 1e-9 : ride.turns,
      noise: white(random.uniform(0, 0.0005), random),
    };
    const presses_s = pressedAtOneTurn(ride, random).slice(0, Math.floor(random.uniform(0, 3)));
    const { samples, told } = rideScene({ ...stands, presses_s }, random);
    const kept = random.next() < 0.2 ? Math.ceil(random.uniform(0, 6)) : samples.length;
    return { samples: samples.slice(0, kept), truths: [{ of: 'runout', value: 'none' }], told };
  },
};
