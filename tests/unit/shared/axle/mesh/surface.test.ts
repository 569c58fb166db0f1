import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spiralBevelBlank } from '../../../../../src/shared/axle/mesh/blank.ts';
import { faceHobbedSurface } from '../../../../../src/shared/axle/mesh/faceHobbed.ts';
import { faceMilledSurface } from '../../../../../src/shared/axle/mesh/faceMilled.ts';
import { spiralAt } from '../../../../../src/shared/axle/mesh/flankModel.ts';
import { frameOf, placeOn } from '../../../../../src/shared/axle/mesh/frame.ts';
import { hypoidBlank } from '../../../../../src/shared/axle/mesh/hypoidBlank.ts';
import { meetingOf } from '../../../../../src/shared/axle/mesh/meshing.ts';
import { FlankFinder, type Surface } from '../../../../../src/shared/axle/mesh/surface.ts';
import { dot, plus, times } from '../../../../../src/shared/axle/mesh/vector.ts';
import { flankNames } from '../../../../../src/shared/axle/mark/mark.ts';
import { degrees, mm } from '../../../../../src/shared/basics/quantity.ts';

const input = { pinionTeeth: 12, ringTeeth: 43, outerDiameter: mm(210), faceWidth: mm(31) };
const bevel = frameOf(spiralBevelBlank({ ...input, offset: mm(0), pinionSpiral: degrees(35) }));

function hobbed(radius: number, groups: number): Surface {
  const cut = { frame: bevel, flank: 'convex', pressureAngle: degrees(20), cutterRadius: mm(radius) } as const;
  const surface = faceHobbedSurface(cut, input.ringTeeth, groups);
  if (!surface.ok) throw new Error(surface.problem.sentence);
  return surface.value;
}

/** How fast the spiral angle grows along the face of a surface, rad/mm. */
function spiralSlope(surface: Surface): number {
  const finder = new FlankFinder(surface, bevel);
  return ((spiralAt(finder, bevel, 0.2) ?? NaN) - (spiralAt(finder, bevel, -0.2) ?? NaN)) / 0.4;
}

describe('a cut flank', () => {
  it.each(flankNames)('shows the mean spiral angle in the pitch plane whatever the root tilt: %s', (flank) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 7, noNaN: true }),
        fc.double({ min: 15, max: 25, noNaN: true }),
        fc.double({ min: 75, max: 150, noNaN: true }),
        (tilt, pressure, radius) => {
          const cut = { frame: bevel, flank, pressureAngle: degrees(pressure), cutterRadius: mm(radius) };
          const finder = new FlankFinder(faceMilledSurface(cut, degrees(tilt)), bevel);
          expect(spiralAt(finder, bevel, 0)).toBeCloseTo(degrees(35), 10);
          const meeting = meetingOf(bevel, finder.at(0, 0) ?? { point: [0, 0, 0], normal: [0, 0, 0] });
          expect(meeting?.roll).toBeCloseTo(0, 9);
        },
      ),
      { seed: 20250531 },
    );
  });

  it('bends along the face as an arc does when face-milled without tilt (closed form)', () => {
    for (const radius of [70, 105, 140]) {
      const cone = bevel.blank.ringMeanCone;
      const expected = (1 / radius - Math.sin(degrees(35)) / cone) / Math.cos(degrees(35));
      // The cone falls away from the plane of the arc; that bends one flank's trace more and the other's as much less.
      const bends = flankNames.map((flank) => {
        const cut = { frame: bevel, flank, pressureAngle: degrees(20), cutterRadius: mm(radius) };
        return spiralSlope(faceMilledSurface(cut, degrees(0)));
      });
      expect(((bends[0] ?? NaN) + (bends[1] ?? NaN)) / 2).toBeCloseTo(expected, 6);
    }
  });

  // Formula from memory (ISO 23509 style, text not seen), checked against the swept blade itself: derived.
  it('bends along the face as an extended epicycloid does when face-hobbed (closed form)', () => {
    for (const [radius, groups] of [
      [84, 17],
      [97, 19],
      [70, 13],
    ] as const) {
      const slope = epicycloidSlope(radius, groups);
      expect(spiralSlope(hobbed(radius, groups)) / slope).toBeCloseTo(1, 1);
    }
  });

  it('refuses blade groups that no cutter of that radius can hold', () => {
    const cut = { frame: bevel, flank: 'convex', pressureAngle: degrees(20), cutterRadius: mm(20) } as const;
    expect(faceHobbedSurface(cut, 43, 17)).toMatchObject({ ok: false, problem: { field: 'cutterRadius_mm' } });
  });

  it('is found at the place asked for, with a normal square to both tangents', () => {
    const finder = new FlankFinder(hobbed(84, 17), bevel);
    for (const [u, v] of [
      [-15, -5],
      [0, 0],
      [12, 1.5],
    ] as const) {
      const found = finder.at(u, v);
      const [placeU, placeV] = placeOn(bevel, found?.point ?? [0, 0, 0]);
      expect([placeU - u, placeV - v].every((miss) => Math.abs(miss) < 1e-9)).toBe(true);
      const beside = finder.at(u + 1e-4, v)?.point ?? [0, 0, 0];
      const tangent = times(1e4, plus(beside, times(-1, found?.point ?? [0, 0, 0])));
      expect(Math.abs(dot(tangent, found?.normal ?? [1, 1, 1]))).toBeLessThan(1e-5);
    }
  });
});

describe('mesh condition', () => {
  it('holds as plain kinematics: no approach along the normal where a point meets the pinion', () => {
    const blank = hypoidBlank({ ...input, offset: mm(30), pinionSpiral: degrees(46) }, mm(105));
    const frame = frameOf(blank ?? bevel.blank);
    const cut = { frame, flank: 'concave', pressureAngle: degrees(25.8), cutterRadius: mm(105) } as const;
    const finder = new FlankFinder(faceMilledSurface(cut, degrees(4.5)), frame);
    for (const [u, v] of [
      [-14, -5],
      [5, -2],
      [14, 1],
    ] as const) {
      const found = finder.at(u, v);
      const meeting = found && meetingOf(frame, found);
      expect(Math.abs(approach(frame.blank.ratio, frame.blank.offset, found?.point, meeting))).toBeLessThan(1e-9);
    }
  });
});

/** n · (ω2 × r − ω1 × (r − A)) written out anew, with r and n turned by the roll. */
function approach(
  ratio: number,
  offset: number,
  point: readonly [number, number, number] | undefined,
  meeting: { readonly roll: number; readonly normal: readonly [number, number, number] } | undefined,
): number {
  if (!point || !meeting) return NaN;
  const { roll, normal } = meeting;
  const x = point[0] * Math.cos(roll) - point[1] * Math.sin(roll);
  const y = point[0] * Math.sin(roll) + point[1] * Math.cos(roll);
  const ring = [-y, x, 0] as const;
  const pinion = [0, ratio * point[2], -ratio * (y - offset)] as const;
  return ring.reduce((sum, part, axis) => sum + (part - (pinion[axis] ?? 0)) * (normal[axis] ?? 0), 0);
}

function epicycloidSlope(radius: number, groups: number): number {
  const { ringMeanCone, ringPitch } = bevel.blank;
  const spiral = degrees(35);
  const crown = input.ringTeeth / Math.sin(ringPitch);
  const lean = Math.asin((ringMeanCone * groups * Math.cos(spiral)) / (radius * crown));
  const reach = Math.sqrt(ringMeanCone ** 2 + radius ** 2 - 2 * ringMeanCone * radius * Math.sin(spiral - lean));
  const eta = Math.acos((ringMeanCone * Math.cos(spiral) * (crown + groups)) / (reach * crown));
  const both = Math.tan(spiral) + Math.tan(eta);
  const bend = ringMeanCone * Math.cos(spiral) * (Math.tan(spiral) + Math.tan(eta) / (1 + Math.tan(lean) * both));
  return (1 / bend - Math.sin(spiral) / ringMeanCone) / Math.cos(spiral);
}
