import { seeded } from '../../seeded.ts';
import { sumOf, wander, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** Noise with a memory. */
export const wandering: World = {
  name: 'wandering noise',
  kind: 'runout',
  belief: '1–3 µm that wanders with a memory of 0.05–1 s',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const noise = sumOf(
      wander(random.uniform(0.001, 0.003), 10 ** random.uniform(-1.3, 0), random),
      white(0.0002, random),
    );
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
