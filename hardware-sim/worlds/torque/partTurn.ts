import { seeded } from '../../seeded.ts';
import type { World } from '../world.ts';
import { anyPull, pullScene } from './pull.ts';

const part = (
  name: string,
  belief: string,
  change: { readonly withAngle: boolean; readonly uneven: number },
): World => ({
  name,
  kind: 'torque',
  belief,
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const pull = { ...anyPull(random), ...change, marked: false, turns: random.uniform(0.4, 0.9) };
    return pullScene({ ...pull, turn_s: random.uniform(1.5, 6) }, random);
  },
});

/** Less than a turn, and the angle tells how much. */
export const partWithAngle = part('part of a turn, with the angle', '0.4–0.9 turns, the angle known', {
  withAngle: true,
  uneven: 0.1,
});

/** Less than a turn, and nothing tells. */
export const partWithoutAngle = part('part of a turn, without the angle', '0.4–0.9 turns, no angle, no marks', {
  withAngle: false,
  uneven: 0.1,
});

/** One turn and a bit. */
export const aboutOneTurn: World = {
  name: 'about one turn',
  kind: 'torque',
  belief: '0.9–2.2 turns, in all manners',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    return pullScene({ ...anyPull(random), turns: random.uniform(0.9, 2.2) }, random);
  },
};
