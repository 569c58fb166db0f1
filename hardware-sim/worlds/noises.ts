import type { Random } from '../seeded.ts';

/** Something added to what the stem feels, as a function of time. Called with rising times only, once for each. */
export type Noise = (t_s: number) => number;

export const still: Noise = () => 0;

/** Every reading off by itself: what electronics do. */
export const white =
  (sd: number, random: Random): Noise =>
  () =>
    sd === 0 ? 0 : random.normal(0, sd);

/** Wanders and forgets where it was after about `memory_s`: a film of oil, a hand on the bench (first-order process). */
export function wander(sd: number, memory_s: number, random: Random): Noise {
  let [value, before_s] = [random.normal(0, sd), 0];
  return (t_s) => {
    const kept = Math.exp(-(t_s - before_s) / memory_s);
    value = value * kept + random.normal(0, sd * Math.sqrt(1 - kept * kept));
    before_s = t_s;
    return value;
  };
}

/** Goes one way at an even speed: a magnetic base that creeps, a clamp that gives. */
export const creep =
  (perSecond: number): Noise =>
  (t_s) =>
    perSecond * t_s;

/** To and fro with one period: a floor, a lift, a person who breathes on the arm. */
export function sway(amplitude: number, period_s: number, random: Random): Noise {
  const phase = random.uniform(0, 2 * Math.PI);
  return (t_s) => amplitude * Math.sin((2 * Math.PI * t_s) / period_s + phase);
}

/** A warming part: fast first, then slower, `total` in the end. */
export const warming =
  (total: number, memory_s: number): Noise =>
  (t_s) =>
    total * (1 - Math.exp(-t_s / memory_s));

/** All of them at once. */
export const sumOf =
  (...noises: readonly Noise[]): Noise =>
  (t_s) =>
    noises.reduce((sum, noise) => sum + noise(t_s), 0);
