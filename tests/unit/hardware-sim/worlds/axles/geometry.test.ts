import { describe, expect, test } from 'vitest';
import { conesOf, type SetDrawn } from '../../../../../hardware-sim/worlds/axles/cones.ts';
import { type Flank, flankSlopes } from '../../../../../hardware-sim/worlds/axles/slopes.ts';

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;

const drawn = (change: Partial<SetDrawn>): SetDrawn => ({
  pinionTeeth: 12,
  ringTeeth: 43,
  outerDiameter: 210,
  faceWidth: 31,
  offset: 30,
  pinionSpiral: radians(46),
  pressure: radians(20),
  cutterRadius: 105,
  rootTilt: 0,
  ...change,
});

/** Cones of a hypoid iteration worked out elsewhere (derived, same set of formulas; invented sets): degrees and mm. */
describe('pitch cones with the cutter known', () => {
  test.each([
    { set: drawn({}), pitch: [17.4198, 71.7256], limit: -5.8025, cone: 95.0985 },
    { set: drawn({ cutterRadius: 84 }), pitch: [19.767, 69.2844], limit: -4.567, cone: 96.5441 },
    { set: drawn({ cutterRadius: 70 }), pitch: [22.1155, 66.8452], limit: -3.3395, cone: 98.2138 },
  ])('cutter of $set.cutterRadius mm', ({ set, pitch, limit, cone }) => {
    const cones = conesOf(set);
    // The other iteration ends at 45.995 degrees of spiral and takes the mean radius from its first guess of the cone.
    expect(degrees(cones.pinionPitch)).toBeCloseTo(pitch[0] ?? 0, 1);
    expect(degrees(cones.ringPitch)).toBeCloseTo(pitch[1] ?? 0, 1);
    expect(Math.abs(degrees(cones.limitAngle) - limit)).toBeLessThan(0.1);
    expect(Math.abs(cones.ringCone / cone - 1)).toBeLessThan(0.006);
  });

  test('shafts stand at a right angle and as far apart as drawn', () => {
    const { pinionAxis: p, ringAxis: r, pinionApex: a, ringApex: b } = conesOf(drawn({}));
    expect(p[0] * r[0] + p[1] * r[1] + p[2] * r[2]).toBeCloseTo(0, 9);
    const across = [p[1] * r[2] - p[2] * r[1], p[2] * r[0] - p[0] * r[2], p[0] * r[1] - p[1] * r[0]] as const;
    const apart = (a[0] - b[0]) * across[0] + (a[1] - b[1]) * across[1] + (a[2] - b[2]) * across[2];
    expect(Math.abs(apart)).toBeCloseTo(30, 6);
  });
});

const up = (set: SetDrawn, flank: Flank, move: 'pinionOut' | 'ringAway'): number =>
  flankSlopes(set, conesOf(set), flank, 0)[move].up;

/** Height slopes at the pitch point, no root tilt (derived in closed form elsewhere; invented sets), 1/mm per mm. */
describe('what a millimetre does to the gap up the flank', () => {
  test.each([
    {
      set: drawn({ outerDiameter: 210, faceWidth: 31.5, offset: 0, pinionSpiral: radians(35) }),
      P: [-0.02448, -0.02046],
      G: [-0.00147, -0.00143],
    },
    {
      set: drawn({
        pinionTeeth: 11,
        ringTeeth: 41,
        outerDiameter: 220,
        faceWidth: 33,
        offset: 37.4,
        pinionSpiral: radians(48),
      }),
      P: [-0.01804, -0.01529],
      G: [-0.00063, -0.00217],
    },
    {
      set: drawn({
        pinionTeeth: 8,
        outerDiameter: 255,
        faceWidth: 38.25,
        offset: 51,
        pinionSpiral: radians(48),
        cutterRadius: 118,
      }),
      P: [-0.01434, -0.01284],
      G: [-0.00053, -0.00109],
    },
  ])('$set.pinionTeeth to $set.ringTeeth, offset $set.offset', ({ set, P, G }) => {
    // Within 8 %: the derivation took the nearest spiral the iteration reached, which moves the limit angle by up to 0.3°.
    const near = (found: number, told = 0): void => expect(Math.abs(found / told - 1)).toBeLessThan(0.08);
    near(up(set, 'convex', 'pinionOut'), P[0]);
    near(up(set, 'concave', 'pinionOut'), P[1]);
    expect(Math.abs(up(set, 'convex', 'ringAway') - (G[0] ?? 0))).toBeLessThan(1e-4);
    expect(Math.abs(up(set, 'concave', 'ringAway') - (G[1] ?? 0))).toBeLessThan(1e-4);
  });

  test('backlash follows the formula on a bevel set, both flanks together', () => {
    const set = drawn({ offset: 0, pinionSpiral: radians(35) });
    const cones = conesOf(set);
    const [convex, concave] = [flankSlopes(set, cones, 'convex', 0), flankSlopes(set, cones, 'concave', 0)];
    const both = (move: 'pinionOut' | 'ringAway'): number =>
      cones.ringRadius * (convex[move].gap / convex.arm + concave[move].gap / concave.arm);
    const formula = (2 * Math.tan(set.pressure)) / Math.cos(cones.ringSpiral);
    expect(both('ringAway')).toBeCloseTo(formula * Math.sin(cones.ringPitch), 5);
    expect(both('pinionOut')).toBeCloseTo(formula * Math.sin(cones.pinionPitch), 5);
  });
});
