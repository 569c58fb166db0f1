import { describe, expect, it } from 'vitest';
import { contactEllipse } from '../../../src/shared/axle/mesh/easeoff.ts';
import { closest, flankOf, modelByBlade, position } from '../../unit/shared/axle/mesh/sets.ts';
import vectors from './vectors.json' with { type: 'json' };

const check = vectors.nonlinear_contact_check;
const { uu: a, uv: b, vv: c } = check.ease_off_curvature_per_mm;
const shimMoves = check.cases.filter(({ move }) => move === 'P+' || move === 'G+');

/**
 * Derived: the vectors' shifts come from a second, independent method (an explicit conjugate pinion surface and five
 * equations for the contact), so they test the gap fields and not only our arithmetic. Their face-milled sets count
 * blade angles from the cutter axis; here they are cut with those blades, one flank at a time.
 */
describe('shift of the contact against a full nonlinear contact calculation', () => {
  it('has both shim movements of every set, at a small and a large step', () => {
    expect(shimMoves).toHaveLength(32);
  });

  it.each(shimMoves)('$set $cut $flank $move $movement_mm: the whole gap field', (wanted) => {
    // A tall flank, so that the shifts of this steep ease-off stay on it.
    const model = modelByBlade(wanted, flankOf(wanted.flank), { flankHeight_mm: 17 });
    const apex = { u: 0, v: 0 - model.visible.middle };
    const moved = wanted.move === 'P+' ? position(wanted.movement_mm, 0) : position(0, wanted.movement_mm);
    const found = closest(model, flankOf(wanted.flank), moved, { a, b, c, apex });
    const [u = NaN, v = NaN] = wanted.shift_u_v_mm_full;
    // Over the shift's own length: single components pass through zero. 12 % is what first order in the movement costs.
    const miss = Math.hypot(found.u - apex.u - u, found.v - apex.v - v);
    expect(miss).toBeLessThanOrEqual(0.01 + 0.12 * Math.hypot(u, v));
  });

  it.each(shimMoves)('$set $cut $flank $move $movement_mm: the closed forms', (wanted) => {
    const influence = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)].atPitchPoint;
    const moved = wanted.move === 'P+' ? influence.pinionOut : influence.ringAway;
    const step = wanted.movement_mm;
    const slopes = { gap: 0, slopeU: step * moved.slopeU, slopeV: step * moved.slopeV };
    const straight = contactEllipse({ ...slopes, a, b, c }, 0).centre;
    const bent = contactEllipse(
      { ...slopes, a: a + step * moved.uu, b: b + step * moved.uv, c: c + step * moved.vv },
      0,
    );
    expectShift(straight, wanted.shift_u_v_mm_linear);
    expectShift(bent.centre, wanted.shift_u_v_mm_with_curvature_change);
  });
});

function expectShift(found: { readonly u: number; readonly v: number }, wanted: readonly number[]): void {
  const [u = NaN, v = NaN] = wanted;
  expect(Math.hypot(found.u - u, found.v - v)).toBeLessThanOrEqual(0.005 + 0.03 * Math.hypot(u, v));
}
