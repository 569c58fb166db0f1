import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawAxles } from '../../../../../src/shared/axle/plan/draws.ts';
import { type Axle, guessSize } from '../../../../../src/shared/axle/plan/guess.ts';
import { choleskyOf, dot, solveLower, solveUpper, squares } from '../../../../../src/shared/basics/cholesky.ts';
import { priorOf, soundCutting } from '../../../../../src/shared/axle/plan/priorOf.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { asked } from './scenes.ts';

const size = 6;
const numbers = (count: number) =>
  fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: count, maxLength: count });

test('solving with the factor and its transpose undoes the matrix', () => {
  fc.assert(
    fc.property(numbers(size * size), numbers(size), (entries, right) => {
      const row = (i: number): Float64Array => Float64Array.from(entries.slice(i * size, (i + 1) * size));
      const matrix = Float64Array.from({ length: size * size }, (_, k) => {
        const [i, j] = [Math.floor(k / size), k % size];
        return dot(row(i), row(j)) + (i === j ? 1 : 0);
      });
      const lower = choleskyOf(matrix, size);
      const x = solveUpper(lower, solveLower(lower, Float64Array.from(right)));
      for (let i = 0; i < size; i += 1) {
        expect(dot(matrix.slice(i * size, (i + 1) * size), x)).toBeCloseTo(right[i] ?? 0, 6);
      }
    }),
  );
});

function priorAlone() {
  const input = asked();
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const prior = priorOf(input, sight.value, soundCutting);
  const precision = Float64Array.from({ length: guessSize ** 2 }, (_, k) => (k % (guessSize + 1) === 0 ? 1 : 0));
  return { prior, likeliest: new Float64Array(guessSize), precision, misfit: 0, evidence: 0 };
}

test('axles drawn from the prior alone have its spread', () => {
  const belief = priorAlone();
  const { prior } = belief;
  const axles = drawAxles(belief, 400, squares);
  const spread = (of: (axle: Axle) => number): number =>
    Math.sqrt(axles.reduce((sum, axle) => sum + of(axle) ** 2, 0) / axles.length);
  expect(axles).toHaveLength(400);
  expect(Math.abs(spread((axle) => axle.pinionOut) / prior.position_mm - 1)).toBeLessThan(0.1);
  expect(Math.abs(spread((axle) => axle.relief.coast.crown) / prior.cutting.crown - 1)).toBeLessThan(0.1);
  expect(Math.abs(spread((axle) => Math.log(axle.film / prior.film_mm)) / prior.filmSpread - 1)).toBeLessThan(0.1);
});

test('proposals count by how well they fit: a cost that is sharper halves the spread', () => {
  const belief = priorAlone();
  // Four times the squares: the first unknown (the film) is known twice as well as was proposed.
  const axles = drawAxles(belief, 400, (guess) => squares(guess) + 3 * (guess[0] ?? 0) ** 2);
  const logs = axles.map((axle) => Math.log(axle.film / belief.prior.film_mm) / belief.prior.filmSpread);
  expect(Math.abs(Math.sqrt(logs.reduce((sum, log) => sum + log * log, 0) / logs.length) - 0.5)).toBeLessThan(0.07);
});
