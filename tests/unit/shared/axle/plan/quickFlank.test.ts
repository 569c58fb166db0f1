import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, evaluateFlank } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import { describeSet, type MeshModel } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import { type Flank, flankNames } from '../../../../../src/shared/axle/mark/mark.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { type QuickFlank, quickFlankOf, quickMark } from '../../../../../src/shared/axle/plan/quickFlank.ts';
import { setWith } from './scenes.ts';

function modelFor(cut: 'face-milled' | 'face-hobbed'): MeshModel {
  const { driveFlank: _driveFlank, ...set } = setWith(cut);
  const described = describeSet(set);
  if (!described.ok) throw new Error(described.problem.sentence);
  return described.value;
}

const place = fc.record({
  pinionOut: fc.double({ min: -0.35, max: 0.35, noNaN: true }),
  ringAway: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
  film: fc.double({ min: 0.004, max: 0.016, noNaN: true }),
  heel: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
  crown: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
});

const curved = { a: 3.5e-4, b: 5e-5, c: 2.5e-3 };
const relief = { ...curved, alongOut: 0, alongAway: 0 };
const middle = { ...relief, heel: 0, crown: 0 };

describe.each(['face-milled', 'face-hobbed'] as const)('the thinned flank against the full mesh model, %s', (cut) => {
  const model = modelFor(cut);
  const quickOf = (flank: Flank): QuickFlank =>
    quickFlankOf(model.flanks[flank].grid, model.flanks[flank].lever, (2 * Math.PI) / model.set.ringTeeth);

  test.each(flankNames)('marks of the %s flank lie within 0.04', (flank) => {
    const quick = quickOf(flank);
    fc.assert(
      fc.property(place, ({ pinionOut, ringAway, film, heel, crown }) => {
        const apex = { u: heel * model.visible.faceWidth, v: crown * model.visible.height };
        const position = { pinionOut: mm(pinionOut), ringAway: mm(ringAway) };
        const learnt = { film: mm(film), easeoff: { [flank]: { ...curved, apex } } };
        const full = evaluateFlank(model, flank, position, learnt);
        const thin = quickMark(quick, { ...relief, heel, crown }, { pinionOut, ringAway, film, rolled: 1 });
        expect(Math.abs(thin.heel - full.heel)).toBeLessThan(0.04);
        expect(Math.abs(thin.crown - full.crown)).toBeLessThan(0.04);
      }),
      { numRuns: 60 },
    );
  });

  test('sizes lie within 0.08 near the middle, where they are learnt from', () => {
    const sizes = [0.006, 0.01].flatMap((film) =>
      [-0.1, 0, 0.1].flatMap((pinionOut) =>
        flankNames.map((flank) => {
          const position = { pinionOut: mm(pinionOut), ringAway: mm(0) };
          const full = evaluateFlank(model, flank, position, { film: mm(film), easeoff: { [flank]: curved } });
          const thin = quickMark(quickOf(flank), middle, { pinionOut, ringAway: 0, film, rolled: 1 });
          return Math.max(Math.abs(thin.length - full.length), Math.abs(thin.height - full.height));
        }),
      ),
    );
    expect(Math.max(...sizes)).toBeLessThan(0.08);
  });

  test('gears that do not follow each tooth pair show the plain ellipse of their relief', () => {
    const film = 0.006;
    for (const flank of flankNames) {
      const quick = quickOf(flank);
      const shown = quickMark(quick, middle, { pinionOut: 0, ringAway: 0, film, rolled: 0 });
      // All of ½(a u² + 2 b u v + c v²) below the film.
      const { a, b, c } = curved;
      const reach = Math.sqrt((8 * film) / (a * c - b * b));
      expect(Math.abs(shown.length - (reach * Math.sqrt(c)) / quick.faceWidth)).toBeLessThan(0.04);
      expect(Math.abs(shown.height - (reach * Math.sqrt(a)) / quick.height)).toBeLessThan(0.08);
      expect(Math.hypot(shown.heel, shown.crown)).toBeLessThan(0.02);
    }
  });

  test('backlash changes within 5 µm', () => {
    const quick = flankNames.map(quickOf);
    const turn = (pinionOut: number, ringAway: number): number =>
      quick.reduce(
        (sum, flank) => sum + quickMark(flank, middle, { pinionOut, ringAway, film: 0.008, rolled: 1 }).turn,
        0,
      );
    const moves = [
      [0.2, 0],
      [-0.2, 0],
      [0, 0.2],
      [0.3, -0.1],
      [-0.3, 0.2],
    ] as const;
    for (const [pinionOut, ringAway] of moves) {
      const position = { pinionOut: mm(pinionOut), ringAway: mm(ringAway) };
      const full = evaluate(model, position, { easeoff: { convex: curved, concave: curved } });
      const heelRadius = 110;
      const off = (turn(pinionOut, ringAway) - turn(0, 0) - full.backlash.turn) * heelRadius;
      expect(Math.abs(off)).toBeLessThan(0.005);
    }
  });
});
