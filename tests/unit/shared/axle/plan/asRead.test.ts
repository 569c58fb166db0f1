import fc from 'fast-check';
import { expect, test } from 'vitest';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { asRead, markAt, sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { asked } from './scenes.ts';

const sight = sightOf(asked());
if (!sight.ok) throw new Error(sight.problem.sentence);
const [axle] = insightFrom(asked(), sight.value).axles;
if (axle === undefined) throw new Error('no axle was drawn');

const factor = fc.double({ min: 0.6, max: 1.3, noNaN: true });

test('a mark read smaller ends sooner before every edge, by the square of the factor', () => {
  const painted = markAt(axle, 'drive', { pinionOut: 0, ringAway: 0 });
  fc.assert(
    fc.property(factor, factor, (length, height) => {
      const read = asRead(painted, { ...axle, sizes: { length, height } });
      expect(read.length).toBeCloseTo(painted.length * length, 9);
      expect(read.height).toBeCloseTo(painted.height * height, 9);
      read.edgeGaps.forEach((gap, edge) => {
        const by = edge < 2 ? length : height;
        expect(gap * by * by).toBeCloseTo(painted.edgeGaps[edge] ?? Number.NaN, 6);
      });
      expect([read.heel, read.crown, read.turn]).toEqual([painted.heel, painted.crown, painted.turn]);
    }),
  );
});
