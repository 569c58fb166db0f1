import { seeded } from '../../seeded.ts';
import { sumOf, sway, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** The floor sways. */
export const swaying: World = {
  name: 'slow sway',
  kind: 'runout',
  belief: '1–5 µm to and fro with a period of 0.5–5 s',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const noise = sumOf(sway(random.uniform(0.001, 0.005), random.uniform(0.5, 5), random), white(0.0003, random));
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
