import { type Random, seeded } from '../../seeded.ts';
import { creep, type Noise, sumOf, sway, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

const nobodyTurns = (named: Pick<World, 'name' | 'belief'>, movesBy: (random: Random) => Noise): World => ({
  ...named,
  kind: 'runout',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), surface: { waves: [] }, uneven: 0, withAngle: random.next() < 0.2 };
    const stands = {
      ...ride,
      turns: ride.withAngle ? 1e-9 : ride.turns,
      noise: movesBy(random),
    };
    const presses_s = pressedAtOneTurn(ride, random).slice(0, Math.floor(random.uniform(0, 3)));
    const { samples, told } = rideScene({ ...stands, presses_s }, random);
    const kept = random.next() < 0.2 ? Math.ceil(random.uniform(0, 6)) : samples.length;
    return { samples: samples.slice(0, kept), truths: [{ of: 'runout', value: 'none' }], told };
  },
});

/** A gauge that stands on a gear that nobody turns, or that hangs in the air: no number is the only true one. */
export const nothingTurned = nobodyTurns(
  {
    name: 'nothing turned',
    belief: 'the gear stands still or the stem hangs in the air; one reading, a few, or many; 0 to 3 presses',
  },
  (random) => white(random.uniform(0, 0.0005), random),
);

/** The same, on a stand that creeps or shakes: the needle moves and still nothing turned. */
export const onlyTheStand = nobodyTurns(
  { name: 'only the stand moves', belief: 'the same, creeping by 0.05–0.3 µm/s or humming by ±0.5–2.5 µm' },
  (random) =>
    sumOf(
      white(random.uniform(0, 0.0005), random),
      random.next() < 0.5
        ? creep(random.uniform(0.00005, 0.0003))
        : sway(random.uniform(0.0005, 0.0025), 0.5 / 12.5 ** random.next(), random),
    ),
);
