import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyLanding } from './pressWhileLanding.ts';
import { anyRide, rideScene } from './turn.ts';

/** The readings begin in the air; the angle is measured; sometimes there is no press at all. */
export const landsWithAngle: World = {
  name: 'stem put down, angle measured',
  kind: 'runout',
  belief:
    'readings begin while the stem comes down 0.3–4 mm, 8–100/s, 1.0–1.3 turns with angle, presses in half of them',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { lands, over_s } = anyLanding(random);
    const starts_s = over_s + random.uniform(0.4, 1.5);
    const ride = { ...anyRide(random), starts_s, turns: random.uniform(1, 1.3), withAngle: true, landing: lands };
    const ends_s = starts_s + ride.turns * ride.turn_s;
    const presses_s = random.next() < 0.5 ? [] : [random.uniform(0, starts_s), ends_s + random.uniform(-0.2, 0.4)];
    return rideScene({ ...ride, noise: white(0.0004, random), presses_s }, random);
  },
};
