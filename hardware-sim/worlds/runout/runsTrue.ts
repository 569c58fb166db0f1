import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** A gear that runs true, seen through noise: largest minus smallest has nothing to show but the noise. */
export const runsTrue: World = {
  name: 'runs true',
  kind: 'runout',
  belief: 'runout 0–3 µm under white noise of 0.5–3 µm, angle measured',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const waves = [{ order: 1, amplitude_mm: random.uniform(0, 0.0015), high_rad: random.uniform(0, 6) }];
    const ride = { ...anyRide(random), surface: { waves }, withAngle: true };
    const noise = white(random.uniform(0.0005, 0.003), random);
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
