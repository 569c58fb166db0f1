import { seeded } from '../../seeded.ts';
import { arrivals } from '../moments.ts';
import { white } from '../noises.ts';
import type { Sample, World } from '../world.ts';
import { anyLanding } from './pressWhileLanding.ts';
import { anyRide, pressedAtOneTurn, ridden, trueRunout } from './turn.ts';

/** Bytes wait while the machine does other things; presses come in time, so that readings from before one arrive after it. */
export const busyMachine: World = {
  name: 'busy machine',
  kind: 'runout',
  belief: 'even readings that arrive in heaps after gaps of 50–800 ms, the stem put down before the first press',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const { lands, over_s } = anyLanding(random);
    const starts_s = over_s + random.uniform(0.6, 1.5);
    const ride = { ...anyRide(random), starts_s, landing: lands, noise: white(0.0004, random) };
    const presses_s = pressedAtOneTurn(ride, random).map((t_s, index) =>
      index === 0 ? Math.max(t_s, over_s + 0.1) : t_s,
    );
    const made = ridden({ ...ride, presses_s }, random);
    const readings = made.filter((sample) => 'value' in sample);
    const stalls = { every_s: random.uniform(0.5, 3), from_s: 0.05, to_s: random.uniform(0.2, 0.8) };
    const late = arrivals(
      readings.map(({ t }) => t),
      stalls,
      random,
    );
    const arrived: Sample[] = readings.map((sample, index) => ({ ...sample, t: late[index] ?? sample.t }));
    const presses = made.filter((sample) => 'pedal' in sample);
    return {
      samples: [...arrived, ...presses].toSorted((a, b) => a.t - b.t),
      truths: [{ of: 'runout', value: trueRunout(ride.surface) }],
      told: { resolution: ride.step_mm },
    };
  },
};
