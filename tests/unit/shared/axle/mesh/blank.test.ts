import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Blank, type BlankInput, spiralBevelBlank } from '../../../../../src/shared/axle/mesh/blank.ts';
import { frameOf } from '../../../../../src/shared/axle/mesh/frame.ts';
import { hypoidBlank, hypoidFirstTrial } from '../../../../../src/shared/axle/mesh/hypoidBlank.ts';
import { cross, dot, plus, times, unit, type Vector } from '../../../../../src/shared/axle/mesh/vector.ts';
import { degrees, mm, toDegrees } from '../../../../../src/shared/basics/quantity.ts';

/**
 * Derived: no printed example of these formulas could be read, but four relations must hold in plain vectors whatever
 * the formulas are called. They prove the cones touch, roll and share their tooth line.
 */
function invariants(blank: Blank) {
  const frame = frameOf(blank);
  const foot: Vector = [frame.mean[0], blank.offset, 0];
  const outward = unit(plus(frame.mean, times(-1, foot)));
  const pinionUp = plus(times(Math.cos(blank.pinionPitch), outward), [-Math.sin(blank.pinionPitch), 0, 0]);
  const pinionElement = plus(times(Math.sin(blank.pinionPitch), outward), [Math.cos(blank.pinionPitch), 0, 0]);
  return {
    normalsOpposed: Math.hypot(...plus(pinionUp, frame.up)),
    elementAngle: Math.atan2(Math.hypot(...cross(pinionElement, frame.heelward)), dot(pinionElement, frame.heelward)),
    spiralDifference: blank.pinionSpiral - blank.ringSpiral,
    radiusFromAxis: Math.hypot(...plus(frame.mean, times(-1, foot))),
    ratio:
      (blank.ringMeanRadius * Math.cos(blank.ringSpiral)) / (blank.pinionMeanRadius * Math.cos(blank.pinionSpiral)),
  };
}

function expectInvariants(blank: Blank): void {
  const found = invariants(blank);
  expect(found.normalsOpposed).toBeLessThan(1e-9);
  expect(found.radiusFromAxis).toBeCloseTo(blank.pinionMeanRadius, 8);
  // acos-like comparison of nearly parallel elements loses half the digits, hence 1e-7.
  expect(Math.abs(found.elementAngle - blank.pitchPlaneOffsetAngle)).toBeLessThan(1e-7);
  expect(found.spiralDifference).toBeCloseTo(blank.pitchPlaneOffsetAngle, 12);
  expect(Math.abs(found.ratio / blank.ratio - 1)).toBeLessThan(1e-6);
}

/** Sets as axles have them: the offset up to a fifth of the diameter, the cutter about half of it. */
const axleSets = fc
  .record({
    pinionTeeth: fc.integer({ min: 7, max: 17 }),
    ratio: fc.double({ min: 2.4, max: 6, noNaN: true }),
    outerDiameter: fc.double({ min: 120, max: 450, noNaN: true }),
    face: fc.double({ min: 0.12, max: 0.17, noNaN: true }),
    offset: fc.double({ min: 0.04, max: 0.2, noNaN: true }),
    spiral: fc.double({ min: 40, max: 52, noNaN: true }),
    cutter: fc.double({ min: 0.36, max: 0.6, noNaN: true }),
  })
  .map((axle) => ({
    input: {
      pinionTeeth: axle.pinionTeeth,
      ringTeeth: Math.round(axle.pinionTeeth * axle.ratio),
      outerDiameter: mm(axle.outerDiameter),
      faceWidth: mm(axle.face * axle.outerDiameter),
      offset: mm(axle.offset * axle.outerDiameter),
      pinionSpiral: degrees(axle.spiral),
    } satisfies BlankInput,
    cutter: mm(axle.cutter * axle.outerDiameter),
  }));

describe('hypoid blank', () => {
  it('keeps the four invariants over random geometry, before and after the cutter is known', () => {
    let found = 0;
    fc.assert(
      fc.property(axleSets, ({ input, cutter }) => {
        expectInvariants(hypoidFirstTrial(input));
        const blank = hypoidBlank(input, cutter);
        if (blank === undefined) return;
        found += 1;
        expectInvariants(blank);
        expect(Math.abs((blank.limitRadius ?? 0) / cutter - 1)).toBeLessThan(1e-7);
      }),
      { numRuns: 300, seed: 20250531 },
    );
    expect(found).toBeGreaterThan(250);
  });

  it('nears the spiral bevel cones as the offset shrinks, because the cutter counts as known', () => {
    const input = {
      pinionTeeth: 12,
      ringTeeth: 43,
      outerDiameter: mm(210),
      faceWidth: mm(31),
      pinionSpiral: degrees(35),
    };
    const bevel = spiralBevelBlank({ ...input, offset: mm(0) });
    const small = hypoidBlank({ ...input, offset: mm(5) }, mm(105));
    // Derived values of the first trial and of the iteration, from the project's reference page.
    expect(toDegrees(small?.pinionPitch ?? bevel.ringPitch)).toBeCloseTo(16.04, 2);
    expect(toDegrees(hypoidFirstTrial({ ...input, offset: mm(5) }).pinionPitch)).toBeCloseTo(18.49, 2);
    expect(toDegrees(bevel.pinionPitch)).toBeCloseTo(15.59, 2);
  });

  it('says so when no cones fit the cutter, instead of answering with the guess', () => {
    const input = {
      pinionTeeth: 12,
      ringTeeth: 43,
      outerDiameter: mm(210),
      faceWidth: mm(31),
      pinionSpiral: degrees(35),
    };
    expect(hypoidBlank({ ...input, offset: mm(0.1) }, mm(105))).toBeUndefined();
  });
});

describe('spiral bevel blank', () => {
  it('keeps the invariants too: cones touch along the shared element and the radii are in the ratio', () => {
    fc.assert(
      fc.property(axleSets, ({ input }) => {
        const blank = spiralBevelBlank(input);
        const found = invariants(blank);
        expect(found.normalsOpposed).toBeLessThan(1e-12);
        expect(found.ratio).toBeCloseTo(blank.ratio, 10);
        expect(found.elementAngle).toBeLessThan(1e-7);
      }),
      { seed: 20250531 },
    );
  });
});
