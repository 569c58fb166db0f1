import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** Single readings far off: a spark, a torn line. */
export const wildReadings: World = {
  name: 'wild readings',
  kind: 'runout',
  belief: 'one reading in 50–200 off by 0.1–3 mm, alone',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const share = 1 / random.uniform(50, 200);
    const own = white(0.0003, random);
    const noise = (t_s: number): number =>
      own(t_s) + (random.next() < share ? random.uniform(0.1, 3) * (random.next() < 0.5 ? -1 : 1) : 0);
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
