import { seeded } from '../../seeded.ts';
import type { World } from '../world.ts';
import { anyPull, pullScene } from './pull.ts';

/** The gauge stands at nought, the shaft is turned round two times and more, every reading's noise is its own. */
export const home: World = {
  name: 'home',
  kind: 'torque',
  belief:
    'zero right, 2.2–5 turns, 0.4–4 N·m, swing to 15 % once and half that twice a turn, white noise to one step, 10–100 readings/s; two fifths with the angle, a quarter marked',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    return pullScene(anyPull(random), random);
  },
};
