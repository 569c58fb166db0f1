import { seeded } from '../../seeded.ts';
import { creep, sumOf, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** The base creeps one way through the turn. */
export const creeping: World = {
  name: 'creep of a runout',
  kind: 'runout',
  belief: '0.5–2 µm/s one way, 1.02–1.2 turns, 10–50 readings/s',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = {
      ...anyRide(random),
      rate_Hz: random.uniform(10, 50),
      turns: random.uniform(1.02, 1.2),
    };
    const speed = random.uniform(0.0005, 0.002) * (random.next() < 0.5 ? -1 : 1);
    const noise = sumOf(creep(speed), white(0.0003, random));
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
