import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, anySurface, pressedAtOneTurn, rideScene } from './turn.ts';

/** The common dial: a hundredth of a millimetre, or half a thousandth of an inch. */
export const coarse: World = {
  name: 'coarse gauge',
  kind: 'runout',
  belief: '0.01 or 0.0127 mm steps on 0.02–0.12 mm of runout, noise up to a third of a step, 3–30 readings/s',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const step_mm = random.next() < 0.5 ? 0.01 : 0.0127;
    const surface = anySurface(random, 0.1);
    const waves = surface.waves.map((wave) => ({
      ...wave,
      amplitude_mm: wave.amplitude_mm + (wave.order === 1 ? 0.006 : 0),
    }));
    const ride = { ...anyRide(random), surface: { waves }, step_mm, rate_Hz: random.uniform(3, 30) };
    const noise = white(random.uniform(0, step_mm / 3), random);
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
