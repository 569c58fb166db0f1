import type { Random } from '../../seeded.ts';

/** Smooth chance over a plane, about −1…1. */
export type Ripple = (x: number, y: number) => number;

const steps = 4096;
/** One turn of the cosine: a photo asks for some hundred million of them. */
const turnOf = Float32Array.from({ length: steps }, (_, n) => Math.cos((2 * Math.PI * n) / steps));

/**
 * A sum of plane waves of random direction and phase: unlike chance laid on a net it has no net to be seen.
 * @param waves_x how many waves fit into one unit of x, and of y: their ratio makes lumps or streaks.
 */
export function ripple(random: Random, waves_x: number, waves_y: number, count = 7): Ripple {
  const waves = Array.from({ length: count }, () => {
    const turn = random.uniform(0, 2 * Math.PI);
    const size = random.uniform(0.45, 1.6);
    return {
      x: steps * waves_x * size * Math.cos(turn),
      y: steps * waves_y * size * Math.sin(turn),
      phase: random.uniform(0, steps),
    };
  });
  const strength = Math.sqrt(2 / count) / 1.6;
  return (x, y) => {
    let sum = 0;
    for (const wave of waves) sum += turnOf[(wave.x * x + wave.y * y + wave.phase) & (steps - 1)] ?? 0;
    return strength * sum;
  };
}

/** From 0 at x = −½ to 1 at x = ½, without a corner. */
export function eased(x: number): number {
  const t = Math.min(1, Math.max(0, x + 0.5));
  return t * t * (3 - 2 * t);
}

/** One of a list. */
export function pick<T>(random: Random, from: readonly [T, ...T[]]): T {
  return from[Math.floor(random.next() * from.length)] ?? from[0];
}
