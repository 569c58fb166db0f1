import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  contactEllipse,
  curvatureFromMark,
  easeoffAt,
  type QuadricGap,
} from '../../../../../src/shared/axle/mesh/easeoff.ts';
import { toDegrees, radians } from '../../../../../src/shared/basics/quantity.ts';
import vectors from '../../../../published/gears/vectors.json' with { type: 'json' };

describe('quadric ease-off', () => {
  // Derived: closed form; the same cases were checked by brute force when the vectors were made, and are again below.
  it.each(vectors.quadric_ease_off.cases)('has the centre, gap and ellipse of the vectors', ({ inputs, outputs }) => {
    const found = contactEllipse(gapOf(inputs), inputs.film_mm);
    expect(found.centre.u).toBeCloseTo(outputs.centre_u_mm, 5);
    expect(found.centre.v).toBeCloseTo(outputs.centre_v_mm, 5);
    expect(found.smallestGap).toBeCloseTo(outputs.smallest_gap_mm, 7);
    expect(found.curvatures[0]).toBeCloseTo(outputs.principal_curvatures_per_mm[0] ?? NaN, 9);
    expect(found.curvatures[1]).toBeCloseTo(outputs.principal_curvatures_per_mm[1] ?? NaN, 9);
    expect(found.semiAxes[0]).toBeCloseTo(outputs.semi_axes_mm[0] ?? NaN, 4);
    expect(found.semiAxes[1]).toBeCloseTo(outputs.semi_axes_mm[1] ?? NaN, 4);
    expect(toDegrees(radians(found.slant))).toBeCloseTo(outputs.long_axis_angle_deg, 4);
    expect(found.halfExtents.u).toBeCloseTo(outputs.half_extent_u_mm, 4);
    expect(found.halfExtents.v).toBeCloseTo(outputs.half_extent_v_mm, 4);
    expect(found.area).toBeCloseTo(outputs.area_mm2, 3);
  });

  it('agrees with brute force on a fine grid', () => {
    for (const { inputs } of vectors.quadric_ease_off.cases) {
      const gap = gapOf(inputs);
      const cells = Array.from({ length: 601 * 241 }, (_, index) => {
        const [u, v] = [(Math.floor(index / 241) - 300) * 0.05, ((index % 241) - 120) * 0.05];
        return { u, v, gap: gap.gap + gap.slopeU * u + gap.slopeV * v + easeoffAt(gap, u, v) };
      });
      const least = cells.reduce((best, cell) => (cell.gap < best.gap ? cell : best));
      const painted = cells.filter((cell) => cell.gap - least.gap <= inputs.film_mm).length * 0.05 * 0.05;
      const found = contactEllipse(gap, inputs.film_mm);
      expect(Math.abs(found.centre.u - least.u)).toBeLessThanOrEqual(0.05);
      expect(Math.abs(found.centre.v - least.v)).toBeLessThanOrEqual(0.05);
      expect(painted / found.area).toBeCloseTo(1, 2);
    }
  });

  it('gives back the curvature a mark was made with', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.004, max: 0.04, noNaN: true }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (film, half) => {
          const flat = { gap: 0, slopeU: 0, slopeV: 0, a: curvatureFromMark(film, half), b: 0, c: 1 };
          expect(contactEllipse(flat, film).semiAxes[0]).toBeCloseTo(half, 9);
        },
      ),
      { seed: 20250531 },
    );
  });
});

function gapOf(inputs: (typeof vectors.quadric_ease_off.cases)[number]['inputs']): QuadricGap {
  return {
    gap: inputs.gap_at_origin_mm,
    slopeU: inputs.gap_slope_u,
    slopeV: inputs.gap_slope_v,
    a: inputs.curvature_uu_per_mm,
    b: inputs.curvature_uv_per_mm,
    c: inputs.curvature_vv_per_mm,
  };
}
