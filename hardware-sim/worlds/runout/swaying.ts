import { type Random, seeded } from '../../seeded.ts';
import { sumOf, sway, white } from '../noises.ts';
import type { World } from '../world.ts';
import { anyRide, pressedAtOneTurn, rideScene } from './turn.ts';

const swayingWorld = (
  named: Pick<World, 'name' | 'belief' | 'honest'>,
  moves: (random: Random) => { readonly mm: number; readonly period_s: number },
): World => ({
  ...named,
  kind: 'runout',
  make(seed) {
    const random = seeded(seed);
    const ride = anyRide(random);
    const { mm, period_s } = moves(random);
    const noise = sumOf(sway(mm, period_s, random), white(0.0003, random));
    return rideScene({ ...ride, noise, presses_s: pressedAtOneTurn(ride, random) }, random);
  },
});

/** The floor sways. */
export const swaying = swayingWorld(
  { name: 'slow sway', belief: '1–5 µm to and fro with a period of 0.5–5 s', honest: false },
  (random) => ({ mm: random.uniform(0.001, 0.005), period_s: random.uniform(0.5, 5) }),
);

/** A compressor or a hoist runs. */
export const humming = swayingWorld(
  { name: 'a stand that hums', belief: 'to and fro by ±1–4 µm, 2–25 times a second', honest: true },
  (random) => ({ mm: random.uniform(0.001, 0.004), period_s: 0.5 / 12.5 ** random.next() }),
);
