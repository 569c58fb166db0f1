import { type Random, seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, rideScene } from './turn.ts';

/** How a stem comes down on the gear, as what it reads above the surface; 0 once it stands. */
export function anyLanding(random: Random): { readonly lands: (t_s: number) => number; readonly over_s: number } {
  const from_mm = random.uniform(0.3, 4) * (random.next() < 0.5 ? -1 : 1);
  const long_s = random.uniform(0.1, 0.8);
  const shape = random.next();
  if (shape < 0.34) {
    // Exponential: over where less than a tenth of a micrometre is left.
    const memory_s = long_s / Math.log(Math.abs(from_mm) / 0.0001);
    return { lands: (t_s) => (t_s < long_s ? from_mm * Math.exp(-t_s / memory_s) : 0), over_s: long_s };
  }
  if (shape < 0.67) return { lands: (t_s) => from_mm * Math.max(0, 1 - t_s / long_s), over_s: long_s };
  // It bounces: each time a fifth as high.
  const bounce_s = long_s / 3;
  return {
    lands: (t_s) => {
      const nth = Math.floor(t_s / bounce_s);
      return nth > 2 ? 0 : from_mm * 0.2 ** nth * Math.abs(Math.cos((Math.PI * ((t_s / bounce_s) % 1)) / 2));
    },
    over_s: long_s,
  };
}

/** The first press falls while the stem is still coming down. */
export const pressWhileLanding: World = {
  name: 'press while the stem lands',
  kind: 'runout',
  belief: 'the stem comes down 0.3–4 mm in 0.1–0.8 s, the first press 0.03–0.3 s before it stands, 10–200 readings/s',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const { lands, over_s } = anyLanding(random);
    const starts_s = over_s + random.uniform(0.2, 1.5);
    const ride = { ...anyRide(random), starts_s, rate_Hz: 10 ** random.uniform(1, 2.3), landing: lands };
    const presses_s = [
      Math.max(0, over_s - random.uniform(0.03, 0.3)),
      starts_s + ride.turns * ride.turn_s + random.uniform(0, 0.4),
    ];
    return rideScene({ ...ride, noise: white(0.0003, random), presses_s }, random);
  },
};
