import type { Random } from '../../seeded.ts';
import { creep, sumOf, sway, wander, warming, white } from '../noises.ts';
import { backlashWorld } from './hands.ts';

const eitherWay = (random: Random, least: number, most: number): number =>
  random.uniform(least, most) * (random.next() < 0.5 ? -1 : 1);
const noise = (random: Random) => white(random.uniform(0, 0.001), random);

/** The indicator's foot, or what it stands on, moves while the gear is rocked. */
export const slowDrift = backlashWorld(
  { name: 'drift while rocking', belief: '0.2–1.5 µm/s one way', honest: true },
  (random) => ({ noise: sumOf(creep(eitherWay(random, 0.0002, 0.0015)), noise(random)) }),
);

export const fastDrift = backlashWorld(
  { name: 'fast drift', belief: '3–10 µm/s one way, the stem resting at one stop first', honest: false },
  (random) => ({ noise: sumOf(creep(eitherWay(random, 0.003, 0.01)), noise(random)) }),
);

export const thermalRamp = backlashWorld(
  { name: 'warming', belief: '20–80 µm in all, fast first, within 20–90 s', honest: false },
  (random) => ({ noise: sumOf(warming(eitherWay(random, 0.02, 0.08), random.uniform(20, 90)), noise(random)) }),
);

export const swaying = backlashWorld(
  { name: 'slow sway', belief: 'to and fro by 2–8 µm with a period of 1.5–6 s', honest: false },
  (random) => ({ noise: sumOf(sway(random.uniform(0.002, 0.008), random.uniform(1.5, 6), random), noise(random)) }),
);

export const wandering = backlashWorld(
  { name: 'wandering noise', belief: '1–3 µm that wanders with a memory of 0.05–1 s', honest: true },
  (random) => ({
    noise: sumOf(wander(random.uniform(0.001, 0.003), 10 ** random.uniform(-1.3, 0), random), noise(random)),
  }),
);

export const knocked = backlashWorld(
  { name: 'a knock', belief: 'the base moves once by 3–40 µm at any time of the session', honest: false },
  (random) => {
    const [by, when] = [eitherWay(random, 0.003, 0.04), random.uniform(1, 25)];
    return { noise: sumOf((t_s) => (t_s < when ? 0 : by), noise(random)) };
  },
);

export const walkingPinion = backlashWorld(
  { name: 'pinion gives', belief: 'both stops walk by 1–25 µm at each rest', honest: false },
  (random) => {
    const by = random.uniform(0.001, 0.025);
    let walked = 0;
    return {
      beyondStop: (side) => {
        walked += by;
        return side === 'low' ? -walked : walked;
      },
    };
  },
);

/** A compressor, a hoist, a lorry that idles before the door. */
export const humming = backlashWorld(
  { name: 'a stand that hums', belief: 'to and fro by ±1–6 µm, 1–25 times a second', honest: true },
  (random) => ({
    noise: sumOf(sway(random.uniform(0.001, 0.006), 1 / 25 ** random.next(), random), noise(random)),
  }),
);
