import { seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, rideScene } from './turn.ts';
import { anyLanding } from './pressWhileLanding.ts';

/** No pedal and no angle: the stem is put down, stands, and the gear is turned once and a bit. */
export const unmarked: World = {
  name: 'no pedal',
  kind: 'runout',
  belief: '1.0–1.3 turns, no presses, no angle; in half of them the readings begin while the stem comes down',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { lands, over_s } = anyLanding(random);
    const begins = random.next() < 0.5 ? { landing: lands, starts_s: over_s + random.uniform(0.5, 1.5) } : {};
    const ride = { ...anyRide(random), turns: random.uniform(1, 1.3), withAngle: false, ...begins };
    return rideScene({ ...ride, noise: white(random.uniform(0, 0.001), random) }, random);
  },
};
