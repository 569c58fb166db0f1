import { describe, expect, it } from 'vitest';
import type { Influence } from '../../../src/shared/axle/mesh/influence.ts';
import { backlashRate, turnRate } from '../../../src/shared/axle/mesh/rates.ts';
import { formulaRate } from '../../support/mesh/formulaRate.ts';
import { flankOf, modelByBlade, modelOf, position } from '../../unit/shared/axle/mesh/sets.ts';
import { evaluate } from '../../../src/shared/axle/mesh/evaluate.ts';
import vectors from './vectors.json' with { type: 'json' };

/** To 3 % or 0.0002, whichever is more: the grid the vectors were fitted on changes slopes by that much. */
const near = (found: number, wanted: number): void => {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(Math.max(0.0002, 0.03 * Math.abs(wanted)));
};

interface Vector {
  readonly gap_mm_per_mm: number;
  readonly slope_u_per_mm_per_mm: number;
  readonly slope_v_per_mm_per_mm: number;
  readonly curvature_uu_per_mm2_per_mm: number;
  readonly curvature_uv_per_mm2_per_mm: number;
  readonly curvature_vv_per_mm2_per_mm: number;
}

function expectInfluence(found: Influence, wanted: Vector): void {
  near(found.gap, wanted.gap_mm_per_mm);
  near(found.slopeU, wanted.slope_u_per_mm_per_mm);
  near(found.slopeV, wanted.slope_v_per_mm_per_mm);
  near(found.uu, wanted.curvature_uu_per_mm2_per_mm);
  near(found.uv, wanted.curvature_uv_per_mm2_per_mm);
  near(found.vv, wanted.curvature_vv_per_mm2_per_mm);
}

describe('influence of movements on the gap at the pitch point, pinned to a sister computation', () => {
  // Derived: non-generated ring gear, pinion its exact conjugate; two independent ways agreed when the vectors were made.
  // The face-milled ones count blade angles from the cutter axis, so each flank is cut with that blade here.
  it.each(vectors.flank_influence.flanks)('$set $cut $flank', (wanted) => {
    const { lever, atPitchPoint } = modelByBlade(wanted, flankOf(wanted.flank)).flanks[flankOf(wanted.flank)];
    expect(lever).toBeCloseTo(wanted.lever_at_mean_point_mm, 3);
    expectInfluence(atPitchPoint.pinionOut, wanted.pinion_out_P);
    expectInfluence(atPitchPoint.ringAway, wanted.ring_away_G);
    expectInfluence(atPitchPoint.offsetUp, wanted.offset_up_E);
    near(atPitchPoint.roll.slopeU, wanted.roll_angle_field.slope_u_rad_per_mm);
    near(atPitchPoint.roll.slopeV, wanted.roll_angle_field.slope_v_rad_per_mm);
  });
});

describe('backlash for each movement', () => {
  const movement = (name: string) => (name === 'pinion_out_P' ? 'pinionOut' : 'ringAway');

  // Derived: flank surfaces against the closed formula. The vectors' face-milled surfaces are withdrawn: they took each
  // blade angle for the flank's own, which made the pinion's share 8 to 10 % too large.
  it.each(vectors.backlash_rate.cases)('$set $cut $move', (wanted) => {
    const model = modelOf(wanted);
    const found = backlashRate(model, movement(wanted.move));
    expect(formulaRate(model, movement(wanted.move))).toBeCloseTo(wanted.mean_transverse_formula_mm_per_mm, 4);
    expect(found.transverseMean).toBeCloseTo(wanted.mean_transverse_formula_mm_per_mm, 4);
    if (wanted.cut === 'FM') return;
    expect(found.transverseHeel).toBeCloseTo(wanted.outer_transverse_mm_per_mm, 3);
    expect(found.normalMean.convex).toBeCloseTo(wanted.normal_on_convex_flank_at_mean_mm_per_mm, 4);
    expect(found.normalMean.concave).toBeCloseTo(wanted.normal_on_concave_flank_at_mean_mm_per_mm, 4);
  });

  it.each(vectors.backlash_rate.cases)(
    'is the formula exactly, by blade and by free turn: $set $cut $move',
    (wanted) => {
      const model = modelOf(wanted);
      const formula = formulaRate(model, movement(wanted.move));
      expect(Math.abs(backlashRate(model, movement(wanted.move)).transverseMean / formula - 1)).toBeLessThan(0.001);
      expect(Math.abs(turnRate(model, movement(wanted.move)) / formula - 1)).toBeLessThan(0.001);
    },
  );

  it('stays put when the pinion goes out and the ring gear closes up by sin δ1/sin δ2 of it (to first order, on the pitch line)', () => {
    for (const set of ['example_bevel_12_43', 'example_hypoid_12_43']) {
      const model = modelOf({ set, cut: 'FH' });
      const trade = Math.sin(model.blank.pinionPitch) / Math.sin(model.blank.ringPitch);
      const sum = turnRate(model, 'pinionOut') - trade * turnRate(model, 'ringAway');
      expect(Math.abs(sum)).toBeLessThan(1e-5);
    }
  });

  it('of a whole position tends to the free turn when both flanks touch on the pitch line', () => {
    const model = modelOf({ set: 'example_hypoid_12_43', cut: 'FM' });
    const onPitchLine = { a: 2e-3, b: 0, c: 2e-2, apex: { u: 0, v: 0 - model.visible.middle } };
    const learnt = { easeoff: { convex: onPitchLine, concave: onPitchLine } };
    const found = evaluate(model, position(0.002, 0), learnt).backlash.transverseMean / 0.002;
    expect(found / turnRate(model, 'pinionOut')).toBeCloseTo(1, 1);
  });
});
