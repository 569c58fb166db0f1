import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, anySurface, pressedAtOneTurn, rideScene } from './turn.ts';

/** A burr or a dent of a few degrees, anywhere, the begin of the turn included. */
export const burr: World = {
  name: 'burr',
  kind: 'runout',
  belief: 'a burr or dent of 10–80 µm over 4–20°, anywhere on the turn, 30–200 readings/s',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const height_mm = random.uniform(0.01, 0.08) * (random.next() < 0.3 ? -1 : 1);
    const wide_rad = random.uniform(0.03, 0.15);
    const surface = { ...anySurface(random), burr: { height_mm, at_rad: random.uniform(0, 6.28), wide_rad } };
    const ride = { ...anyRide(random), surface, rate_Hz: random.uniform(30, 200) };
    return rideScene({ ...ride, noise: white(0.0004, random), presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
