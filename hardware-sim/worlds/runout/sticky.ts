import { seeded } from '../../seeded.ts';
import { withPlay } from '../display.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** A spindle with play, said or not. */
export const sticky: World = {
  name: 'hysteresis',
  kind: 'runout',
  belief: 'the spindle follows only after one to two digits the other way; in half of them that is said of the gauge',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const width = random.uniform(1, 2) * ride.step_mm;
    const told = random.next() < 0.5 ? { hysteresis: width } : {};
    const scene = { ...ride, spindle: withPlay(width), noise: white(0.0002, random) };
    return rideScene({ ...scene, presses_s: pressedAtOneTurn(ride, random) }, random, told);
  },
};
