import { type Axle, axleFrom, guessSize } from './guess.ts';
import type { Belief } from './learn.ts';
import { solveUpper } from './matrix.ts';

/**
 * Axles that would all have shown what was read, spread as the belief is unsure: the likeliest first, then pairs on
 * either side of it. Evenly filling sequences stand in for chance, so that the same trials always get the same plan.
 */
export function drawAxles(belief: Belief, pairs: number): readonly Axle[] {
  const { prior, likeliest } = belief;
  const steps = Array.from({ length: pairs }, (_, n) => solveUpper(belief.precision, normals(n + 1)));
  const both = steps.flatMap((step) => [
    likeliest.map((x, i) => x + (step[i] ?? 0)),
    likeliest.map((x, i) => x - (step[i] ?? 0)),
  ]);
  return [likeliest, ...both].map((guess) => axleFrom(prior, guess));
}

/** Roots of whole numbers that share no factor fill a box evenly (Weyl sequences). */
const roots = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89].map(
  Math.sqrt,
);

/** The n-th point of a sequence of independent standard normals, two by two (Box–Muller). */
function normals(n: number): Float64Array {
  const part = (index: number): number => (n * (roots[index] ?? 1)) % 1;
  return Float64Array.from({ length: guessSize }, (_, index) => {
    const pair = index - (index % 2);
    const size = Math.sqrt(-2 * Math.log(1 - part(pair)));
    return size * (index % 2 === 0 ? Math.cos : Math.sin)(2 * Math.PI * part(pair + 1));
  });
}
