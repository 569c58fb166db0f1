import { seeded } from '../../seeded.ts';
import { sumOf, warming, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

/** The stand is knocked once, or warms: the place does not read the same afterwards. */
export const bumped: World = {
  name: 'knocked or warming stand',
  kind: 'runout',
  belief: 'one step of 2–15 µm at any moment, or warming by as much with a memory of 2–20 s',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const size = random.uniform(0.002, 0.015) * (random.next() < 0.5 ? -1 : 1);
    const at_s = ride.starts_s + random.uniform(0.1, 0.9) * ride.turns * ride.turn_s;
    const moved = random.next() < 0.5 ? (t_s: number) => (t_s < at_s ? 0 : size) : warming(size, random.uniform(2, 20));
    const noise = sumOf(moved, white(0.0003, random));
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
};
