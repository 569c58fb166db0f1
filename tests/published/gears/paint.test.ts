import { describe, expect, it } from 'vitest';
import { contactEllipse, curvatureFromMark } from '../../../src/shared/axle/mesh/easeoff.ts';
import { closingAlong } from '../../../src/shared/axle/mesh/contactLines.ts';
import { easeoffAt } from '../../../src/shared/axle/mesh/easeoff.ts';
import { leastSquares } from '../../../src/shared/basics/leastSquares.ts';
import { flankOf, modelByBlade } from '../../unit/shared/axle/mesh/sets.ts';
import vectors from './vectors.json' with { type: 'json' };

/*
 * Derived vectors: closed forms of the same geometry in other hands, not readings of anybody's gears. They prove that the
 * bench's influence coefficients give the shifts those forms give, and nothing about real marks. The face-milled ones count
 * blade angles from the cutter axis, so each flank is cut with that blade. Of the trade's backlash tables and shop rules
 * (shim for backlash 0.5 to 0.8) no check is made: they contradict each other and none has a source that can be named.
 */

/** Shift of the contact for a small movement: where ease-off and the movement's slopes together are flat. */
function shiftOf(
  influence: { readonly slopeU: number; readonly slopeV: number },
  moved_mm: number,
  curvature: { readonly a: number; readonly b: number; readonly c: number },
) {
  const { slopeU, slopeV } = influence;
  return contactEllipse({ gap: 0, slopeU: moved_mm * slopeU, slopeV: moved_mm * slopeV, ...curvature }, 0).centre;
}

/** To 4 % of the shift's own length and 0.005 mm: the grid the vectors were fitted on changes slopes by some per cent. */
function expectShift(found: { readonly u: number; readonly v: number }, u: number, v: number): void {
  expect(Math.hypot(found.u - u, found.v - v)).toBeLessThanOrEqual(0.005 + 0.04 * Math.hypot(u, v));
}

describe('offset, pinion and ring gear by a thousandth of an inch', () => {
  const step_mm = 0.0254;
  const { uu: a, uv: b, vv: c } = vectors.vh_sensitivity.ease_off_curvature_per_mm;

  it.each(vectors.vh_sensitivity.cases)('move the contact as the closed form says: $set $cut $flank', (wanted) => {
    const { atPitchPoint } = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)];
    for (const [influence, [u = Number.NaN, v = Number.NaN]] of [
      [atPitchPoint.offsetUp, wanted.shift_u_v_mm_per_0p001in_V],
      [atPitchPoint.pinionOut, wanted.shift_u_v_mm_per_0p001in_H],
      [atPitchPoint.ringAway, wanted.shift_u_v_mm_per_0p001in_G],
    ] as const) {
      expectShift(shiftOf(influence, step_mm, { a, b, c }), u, v);
    }
  });

  it.each(vectors.vh_sensitivity.cases)('together bring it to the toe at mid height: $set $cut $flank', (wanted) => {
    const { atPitchPoint } = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)];
    const { to_toe_7p75mm_V_mm: V, to_toe_7p75mm_H_mm: H } = wanted;
    const sum = (of: 'slopeU' | 'slopeV'): number => V * atPitchPoint.offsetUp[of] + H * atPitchPoint.pinionOut[of];
    const found = shiftOf({ slopeU: sum('slopeU'), slopeV: sum('slopeV') }, 1, { a, b, c });
    expect(Math.abs(found.u + 7.75)).toBeLessThan(0.4);
    expect(Math.abs(found.v)).toBeLessThan(0.25);
    expect(V / H).toBeCloseTo(wanted.ratio_V_over_H, 2);
  });
});

describe('the film, of which a mark of one size tells the curvature', () => {
  const { pinion_move_mm, mark_half_height_mm, mark_half_length_mm, cases } = vectors.film_scaling;

  it.each(cases)('$film_um µm: curvatures and shift, $set $cut $flank', (wanted) => {
    const film = wanted.film_um / 1000;
    const curvature = {
      a: curvatureFromMark(film, mark_half_length_mm),
      b: 0,
      c: curvatureFromMark(film, mark_half_height_mm),
    };
    expect(curvature.a).toBeCloseTo(wanted.curvature_uu_per_mm, 7);
    expect(curvature.c).toBeCloseTo(wanted.curvature_vv_per_mm, 7);
    const ellipse = contactEllipse({ gap: 0, slopeU: 0, slopeV: 0, ...curvature }, film);
    expect(ellipse.halfExtents.u).toBeCloseTo(mark_half_length_mm, 9);
    expect(ellipse.halfExtents.v).toBeCloseTo(mark_half_height_mm, 9);
    const { atPitchPoint } = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)];
    expectShift(shiftOf(atPitchPoint.pinionOut, pinion_move_mm, curvature), wanted.shift_u_mm, wanted.shift_v_mm);
  });
});

describe('unloaded transmission error', () => {
  const { uu: a, uv: b, vv: c } = vectors.nonlinear_contact_check.ease_off_curvature_per_mm;
  const pitch = Math.PI / 43;

  it.each(vectors.unloaded_transmission_error.cases)(
    'from roll and ease-off, in closed form: $set $cut $flank',
    (wanted) => {
      const { atPitchPoint, lever } = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)];
      const { slopeU, slopeV } = atPitchPoint.roll;
      // Least of ½xᵀCx on the contact line r·x = θ is θ²/(2 rᵀC⁻¹r); over the lever it is an angle (derived).
      const across = (c * slopeU ** 2 - 2 * b * slopeU * slopeV + a * slopeV ** 2) / (a * c - b * b);
      const coefficient = 1 / (2 * Math.abs(lever) * across);
      const close = (found: number, value: number): void => {
        expect(Math.abs(found / value - 1)).toBeLessThan(0.03);
      };
      close(coefficient, wanted.te_coefficient_closed_form_rad_per_rad2);
      close(1e6 * coefficient * pitch ** 2, wanted.peak_to_valley_closed_form_urad);
    },
  );

  it.each(vectors.unloaded_transmission_error.cases)(
    'along the contact lines of the whole flank, against the full contact calculation: $set $cut $flank',
    (wanted) => {
      const model = modelByBlade(wanted, flankOf(wanted.flank), { flankHeight_mm: 17 });
      const { grid, lever } = model.flanks[flankOf(wanted.flank)];
      const apex = { u: 0, v: 0 - model.visible.middle };
      const gaps = grid.u.map((u, index) => easeoffAt({ a, b, c, apex }, u, grid.v[index] ?? Number.NaN));
      const { smallest } = closingAlong(grid.lines, gaps);
      const rolls = Array.from(smallest, (gap, line) => ({ roll: grid.lines.first + line * grid.lines.step, gap }));
      const near = rolls.filter(({ roll, gap }) => Number.isFinite(gap) && Math.abs(roll) <= 1.2 * pitch);
      const fit = leastSquares(
        near.map(({ roll }) => [1, roll, roll * roll]),
        near.map(({ gap }) => gap / Math.abs(lever)),
      );
      expect(near.length).toBeGreaterThan(20);
      // The grid's own coarseness costs some per cent of so flat a curve.
      expect(Math.abs((fit?.coefficients[2] ?? 0) / wanted.te_coefficient_full_rad_per_rad2 - 1)).toBeLessThan(0.06);
    },
  );
});
