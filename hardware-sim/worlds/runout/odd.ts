import { type Random, seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene, trueRunout } from './turn.ts';

type Ride = ReturnType<typeof anyRide>;

const world = (
  named: Pick<World, 'name' | 'belief' | 'honest'>,
  change: (ride: Ride, random: Random) => Partial<Ride>,
): World => ({
  ...named,
  kind: 'runout',
  make(seed) {
    const random = seeded(seed);
    const plain = { ...anyRide(random), noise: white(random.uniform(0, 0.0007), random) };
    const ride = { ...plain, ...change(plain, random) };
    return rideScene({ presses_s: pressedAtOneTurn(ride, random), ...ride }, random);
  },
});

/** Shares of the way at shares of the time, straight in between. */
const through =
  (knots: readonly (readonly [number, number])[]) =>
  (share: number): number => {
    const next = knots.findIndex(([at]) => at >= share);
    const [from, to] = [knots[Math.max(0, next - 1)] ?? [0, 0], knots[Math.max(0, next)] ?? [1, 1]];
    return to[0] <= from[0] ? to[1] : from[1] + ((share - from[0]) / (to[0] - from[0])) * (to[1] - from[1]);
  };

const turnsBack = world(
  { name: 'turned back on the way', belief: 'once on the way the gear is turned back by 5–30°, then on', honest: true },
  (ride, random) => {
    const [at, back] = [random.uniform(0.2, 0.8), random.uniform(5, 30) / 360 / ride.turns];
    return {
      way: through([
        [0, 0],
        [at, at],
        [at + 0.08, at - back],
        [1, 1],
      ]),
    };
  },
);

const regripping = world(
  {
    name: 'hand that regrips',
    belief: 'the gear stands 3–8 times on the way for 0.2–0.8 s, no pedal then',
    honest: true,
  },
  (ride, random) => {
    const stops = 3 + Math.floor(6 * random.next());
    const long = Math.min(0.6 / stops, random.uniform(0.2, 0.8) / (ride.turns * ride.turn_s));
    const stretch = (1 - stops * long) / (stops + 1);
    const knots = Array.from({ length: stops + 1 }, (_, n) => n).flatMap(
      (n): readonly (readonly [number, number])[] => {
        const made = n / (stops + 1);
        return n === 0
          ? [[0, 0]]
          : [
              [n * stretch + (n - 1) * long, made],
              [n * stretch + n * long, made],
            ];
      },
    );
    return { way: through([...knots, [1, 1]]) };
  },
);

const twoTurns = world(
  { name: 'two turns', belief: '1.9–2.4 turns between the presses', honest: true },
  (ride, random) => {
    const turns = random.uniform(1.9, 2.4);
    const turn_s = random.uniform(3, 8);
    return { turns, turn_s, presses_s: [ride.starts_s - 0.2, ride.starts_s + turns * turn_s + 0.2] };
  },
);

const alreadyTurning = world(
  {
    name: 'already turning',
    belief: 'the gear turns before the first reading and after the last, no rest at all',
    honest: true,
  },
  (_, random) => ({ starts_s: 0, stays_s: 0, turns: random.uniform(1.05, 1.3), presses_s: [] }),
);

const bent = world(
  { name: 'bent flange', belief: 'a runout of 0.2–1 mm, once and twice a turn', honest: true },
  (_, random) => {
    const first = random.uniform(0.1, 0.5);
    const waves = [first, first * random.uniform(0, 0.5)].map((amplitude_mm, index) => ({
      order: index + 1,
      amplitude_mm,
      high_rad: random.uniform(0, 6.28),
    }));
    return { surface: { waves } };
  },
);

const backwards: World = {
  ...world(
    { name: 'turned the other way', belief: 'the gear is turned against its numbers, by the angle', honest: true },
    () => ({
      withAngle: true,
    }),
  ),
  make(seed) {
    const random = seeded(seed);
    const ride = { ...anyRide(random), withAngle: true, noise: white(random.uniform(0, 0.0007), random) };
    const { samples, told } = rideScene({ ...ride, presses_s: pressedAtOneTurn(ride, random) }, random);
    const turned = samples.map((sample) =>
      'value' in sample && sample.angle_deg !== undefined
        ? { ...sample, angle_deg: (720 - sample.angle_deg) % 360 }
        : sample,
    );
    return { samples: turned, told, truths: [{ of: 'runout', value: trueRunout(ride.surface) }] };
  },
};

export const oddRides: readonly World[] = [turnsBack, regripping, twoTurns, alreadyTurning, bent, backwards];
