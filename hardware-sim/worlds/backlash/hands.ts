import { type Random, seeded } from '../../seeded.ts';
import { white } from '../noises.ts';
import type { Scene, World } from '../world.ts';
import { anyRocking, anyTooth, rockedScene, type Rocking } from './rocking.ts';

const quiet = (random: Random) => white(random.uniform(0, 0.001), random);

/** One of these worlds: `draw` says what is unlike home. */
export const backlashWorld = (
  named: Pick<World, 'name' | 'belief' | 'honest'>,
  draw: (random: Random) => Partial<Rocking>,
): World => ({
  ...named,
  kind: 'backlash',
  make(seed): Scene {
    const random = seeded(seed);
    const rocking = anyRocking(random, draw(random));
    return rockedScene({ noise: quiet(random), ...rocking }, random);
  },
});

export const home = backlashWorld(
  {
    name: 'home',
    belief: 'both stops are met alike at every rest, white noise up to 1 µm on a gauge of 0.001–0.01 mm',
    honest: true,
  },
  (random) => ({ step_mm: [0.001, 0.002, 0.005, 0.01][Math.floor(random.uniform(0, 4))] ?? 0.001 }),
);

export const scatteringHands = backlashWorld(
  {
    name: 'hands that scatter',
    belief: 'each rest off by 0.5–3 µm (sd) either way, by how hard it was pressed',
    honest: true,
  },
  (random) => {
    const sd = random.uniform(0.0005, 0.003);
    return { beyondStop: () => random.normal(0, sd) };
  },
);

export const oneFirmHand = backlashWorld(
  { name: 'one firm hand', belief: 'one side repeats, the other is off by 1–4 µm (sd) at each rest', honest: true },
  (random) => {
    const sd = random.uniform(0.001, 0.004);
    const loose = random.next() < 0.5 ? 'low' : 'high';
    return { beyondStop: (side) => (side === loose ? random.normal(0, sd) : 0) };
  },
);

export const fallsShort = backlashWorld(
  {
    name: 'rests that fall short',
    belief: 'each rest stops short of its stop by 0 to 1–5 µm, evenly drawn, never beyond',
    honest: false,
  },
  (random) => {
    const most = random.uniform(0.001, 0.005);
    return { beyondStop: () => -random.uniform(0, most) };
  },
);

export const leftShort = backlashWorld(
  {
    name: 'one side left short',
    belief: 'one side stops 5–60 % of the backlash short, otherwise at each rest',
    honest: false,
  },
  (random) => {
    const short = random.next() < 0.5 ? 'low' : 'high';
    const tooth = anyTooth(random);
    return {
      teeth: [tooth],
      step_mm: random.next() < 0.5 ? 0.001 : 0.01,
      beyondStop: (side) => (side === short ? -random.uniform(0.05, 0.6) * tooth.backlash_mm : 0),
    };
  },
);

export const manners = backlashWorld(
  {
    name: 'manners',
    belief: 'slow or fast, uneven, pauses of 3–8 s, touches a stop again, hesitates; 3–50 readings/s',
    honest: true,
  },
  (random) => ({
    stroke_s: 0.08 * 15 ** random.next(),
    uneven: random.uniform(0.2, 0.6),
    pauses: random.uniform(0, 0.3),
    hesitates: random.uniform(0, 0.3),
    touchesAgain: random.uniform(0, 0.4),
  }),
);
