import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** The stem stands, nothing moves but the gear, every reading's noise is its own. */
export const home: World = {
  name: 'home',
  kind: 'runout',
  belief: 'stem stands, only the gear moves, white noise up to 1 µm, marked by presses or known by the angle',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const noise = white(random.uniform(0, 0.001), random);
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
