import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluateFlank } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import { easeoffFromMark } from '../../../../../src/shared/axle/mesh/learnEaseoff.ts';
import { flankNames } from '../../../../../src/shared/axle/mark/mark.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { modelOf, position } from './sets.ts';

const models = {
  FM: modelOf({ set: 'example_hypoid_12_43', cut: 'FM' }),
  FH: modelOf({ set: 'example_hypoid_12_43', cut: 'FH' }),
};

describe('an ease-off learnt from a mark', () => {
  it('leaves that mark again, wherever and however it was made', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('FM', 'FH'),
        fc.constantFrom(...flankNames),
        fc.record({
          u: fc.double({ min: -4, max: 4, noNaN: true }),
          v: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
          long: fc.double({ min: 1, max: 2.5, noNaN: true }),
          tall: fc.double({ min: 1.5, max: 4, noNaN: true }),
          um: fc.double({ min: 5, max: 15, noNaN: true }),
          out: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        }),
        (cut, flank, { u, v, long, tall, um, out }) => {
          const model = models[cut];
          const { a, b, c } = model.flanks[flank].easeoff;
          const scale = um / 10;
          const true_ = { a: a * long * scale, b, c: c * tall * scale, apex: { u, v } };
          const [at, film] = [position(out, 0), mm(um / 1000)];
          const mark = evaluateFlank(model, flank, at, { film, easeoff: { [flank]: true_ } });
          fc.pre(Object.values(mark.edges).every((edge) => edge === 'clear'));
          const learnt = easeoffFromMark(model, flank, mark, at, film);
          const again = evaluateFlank(model, flank, at, { film, easeoff: { [flank]: learnt } });
          expect(Math.abs(again.heel - mark.heel)).toBeLessThan(0.005);
          expect(Math.abs(again.crown - mark.crown)).toBeLessThan(0.005);
          expect(Math.abs(again.length - mark.length)).toBeLessThan(0.02);
          expect(Math.abs(again.height - mark.height)).toBeLessThan(0.02);
        },
      ),
      { numRuns: 40, seed: 20250531 },
    );
  });

  it('is flatter for a larger mark and steeper for a thicker film', () => {
    const model = models.FM;
    const rest = evaluateFlank(model, 'convex', position(0, 0));
    const learnt = (length: number, um: number) =>
      easeoffFromMark(model, 'convex', { ...rest, length }, position(0, 0), mm(um / 1000));
    expect(learnt(0.7, 10).a).toBeLessThan(learnt(0.5, 10).a);
    expect(learnt(0.6, 20).a / learnt(0.6, 10).a).toBeCloseTo(2, 1);
  });
});
