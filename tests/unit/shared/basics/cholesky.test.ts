import fc from 'fast-check';
import { expect, test } from 'vitest';
import { choleskyOf, dot, solveLower, solveUpper } from '../../../../src/shared/basics/cholesky.ts';

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
