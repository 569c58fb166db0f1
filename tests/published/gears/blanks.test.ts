import { describe, expect, it } from 'vitest';
import { spiralBevelBlank } from '../../../src/shared/axle/mesh/blank.ts';
import { hypoidBlank, hypoidFirstTrial } from '../../../src/shared/axle/mesh/hypoidBlank.ts';
import { degrees, mm, toDegrees } from '../../../src/shared/basics/quantity.ts';
import vectors from './vectors.json' with { type: 'json' };

describe('pitch cones, pinned to the same formulas in other hands', () => {
  // Derived; the inputs of two rows are from memory (annex of ISO 23509 and a paper, neither seen): no outside proof.
  it.each(vectors.spiral_bevel_geometry.cases)('spiral bevel: $id', ({ inputs, outputs }) => {
    const blank = spiralBevelBlank({
      pinionTeeth: inputs.pinion_teeth,
      ringTeeth: inputs.ring_teeth,
      outerDiameter: mm(inputs.ring_outer_pitch_diameter_mm),
      faceWidth: mm(inputs.face_width_mm),
      offset: mm(0),
      pinionSpiral: degrees(inputs.mean_spiral_angle_deg),
    });
    expect(toDegrees(blank.pinionPitch)).toBeCloseTo(outputs.pinion_pitch_angle_deg, 5);
    expect(toDegrees(blank.ringPitch)).toBeCloseTo(outputs.ring_pitch_angle_deg, 5);
    expect(blank.ringOuterCone).toBeCloseTo(outputs.outer_cone_distance_mm, 5);
    expect(blank.ringMeanCone).toBeCloseTo(outputs.mean_cone_distance_mm, 5);
    expect(2 * blank.ringMeanRadius).toBeCloseTo(outputs.ring_mean_diameter_mm, 5);
    expect(2 * blank.pinionMeanRadius).toBeCloseTo(outputs.pinion_mean_diameter_mm, 5);
  });

  // Derived: same formulas in other hands; the invariants in tests/unit are the proof.
  it.each(vectors.hypoid_geometry.cases)('hypoid: $id', ({ inputs, outputs }) => {
    const input = {
      pinionTeeth: inputs.pinion_teeth,
      ringTeeth: inputs.ring_teeth,
      outerDiameter: mm(inputs.ring_outer_pitch_diameter_mm),
      faceWidth: mm(inputs.ring_face_width_mm),
      offset: mm(inputs.offset_mm),
      pinionSpiral: degrees(inputs.wanted_pinion_spiral_angle_deg),
    };
    const cutter = inputs.cutter_radius_mm;
    const blank = cutter === null ? hypoidFirstTrial(input) : hypoidBlank(input, mm(cutter));
    expect(toDegrees(blank?.pinionPitch ?? degrees(0))).toBeCloseTo(outputs.pinion_pitch_angle_deg, 5);
    expect(toDegrees(blank?.ringPitch ?? degrees(0))).toBeCloseTo(outputs.ring_pitch_angle_deg, 5);
    expect(toDegrees(blank?.pinionSpiral ?? degrees(0))).toBeCloseTo(outputs.pinion_spiral_angle_deg, 5);
    expect(toDegrees(blank?.ringSpiral ?? degrees(0))).toBeCloseTo(outputs.ring_spiral_angle_deg, 5);
    expect(toDegrees(blank?.limitPressure ?? degrees(0))).toBeCloseTo(outputs.limit_pressure_angle_deg, 5);
    expect(toDegrees(blank?.ringOffsetAngle ?? degrees(0))).toBeCloseTo(outputs.ring_offset_angle_eps_deg, 5);
    expect(blank?.limitRadius).toBeCloseTo(outputs.limit_curvature_radius_mm, 4);
    expect(blank?.ringMeanCone).toBeCloseTo(outputs.ring_mean_cone_distance_mm, 5);
    expect(blank?.pinionMeanRadius).toBeCloseTo(outputs.pinion_mean_radius_mm, 5);
    expect(blank?.ringOuterCone).toBeCloseTo(outputs.ring_outer_cone_distance_mm, 5);
  });
});
