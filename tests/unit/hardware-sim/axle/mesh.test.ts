import { describe, expect, test } from 'vitest';
import { bringTogether, seenFromPinion, stopAngle, type Position } from '../../../../hardware-sim/axle/mesh/contact.ts';
import {
  DEFAULT_FINENESS,
  cutGearSet,
  ringPoint,
  type GearSet,
  type RingPoint,
} from '../../../../hardware-sim/axle/mesh/gearSet.ts';
import { mesh, type Mesh } from '../../../../hardware-sim/axle/mesh/mesh.ts';
import type { RingFlank } from '../../../../hardware-sim/axle/mesh/ringFlank.ts';
import { dot, unit, type Vector } from '../../../../hardware-sim/axle/mesh/vector.ts';
import { touchOf } from '../../../../hardware-sim/axle/mesh/touch.ts';
import { degrees, HOBBED, MILLED, inventedSet, setAtPitchLine } from './invented.ts';

const HOME: Position = { pinionOut_mm: 0, ringAway_mm: 0 };
const moved = (pinionOut_mm: number, ringAway_mm: number): Position => ({ pinionOut_mm, ringAway_mm });

/** Slopes of first touch are small differences of small numbers: the paint grid is laid finer for them. */
const FINE = { ...DEFAULT_FINENESS, paint: [161, 121] } as const;

/** How fast each flank's touch moves when both touch at the mean point (roll 0), rad of ring gear per mm moved. */
function touchSlopes(set: GearSet, step: Position): { readonly convex: number; readonly concave: number } {
  const back = moved(-step.pinionOut_mm, -step.ringAway_mm);
  const slope = (name: 'convex' | 'concave') => {
    const [forth, behind] = [step, back].map((at) => touchOf(bringTogether(set, set[name], at), false).at(0));
    return ((forth ?? 0) - (behind ?? 0)) / (2 * (step.pinionOut_mm + step.ringAway_mm));
  };
  return { convex: slope('convex'), concave: slope('concave') };
}

/** Change of backlash along rotation at the mean radius, mm per mm, divided by that of the closed formula. */
function againstFormula(set: GearSet, step: Position): number {
  const { convex, concave } = touchSlopes(set, step);
  return ((convex + concave) * set.blank.ringMeanRadius_mm) / formula(set, step);
}

/** (tan αV + tan αC)/cos β2 times the part of the move along the pitch-plane normal, per mm moved. */
function formula(set: GearSet, step: Position): number {
  const opening = Math.tan(set.convex.ring.pressure_rad) + Math.tan(set.concave.ring.pressure_rad);
  const pitch = step.pinionOut_mm > 0 ? set.blank.pinionPitch_rad : set.blank.ringPitch_rad;
  return (opening / Math.cos(set.blank.ringSpiral_rad)) * Math.sin(pitch);
}

/** Normal of a ring-gear flank at a place, by differences of its polar angle. */
function ringNormal(ring: RingFlank, [x, y, z]: Vector): Vector {
  const R = Math.hypot(x, y);
  const h = 1e-3;
  const dR = (ring.polar(R + h, z) - ring.polar(R - h, z)) / (2 * h);
  const dz = (ring.polar(R, z + h) - ring.polar(R, z - h)) / (2 * h);
  return unit([-y / (R * R) - (dR * x) / R, x / (R * R) - (dR * y) / R, -dz]);
}

const [OUT, AWAY] = [moved(0.01, 0), moved(0, 0.01)];

const meanGap = (set: GearSet, at: Mesh) => at.backlash_mm - set.spec.backlash_mm;

describe('a true conjugate', () => {
  test.each([
    [0, MILLED],
    [0, HOBBED],
    [30, MILLED],
    [30, HOBBED],
  ] as const)('touches along its whole flank at home: offset %d, %o', (offset, cut) => {
    const none = { lengthwise: 0, bias: 0, profile: 0, apex: { heel: 0, crown: 0 } };
    const set = cutGearSet(inventedSet(offset, cut, none));
    const worst = (['convex', 'concave'] as const).flatMap((name) => {
      const field = bringTogether(set, set[name], HOME);
      return Array.from(field.level, (level, k) => Math.abs(level * (field.lever[k] ?? 0)));
    });
    // 0.1 µm: well below the thinnest film, and three hundred times the table's own error on most of the flank.
    expect(Math.max(...worst)).toBeLessThan(1e-4);
  });
});

describe('backlash against the closed formula', () => {
  // Only the part of a move along the pitch-plane normal opens both flanks (derived, first order). It holds for a
  // tapered tooth as for an even one, since each flank has its own angle to the pitch plane.
  test.each([
    [0, HOBBED],
    [30, HOBBED],
    [0, MILLED],
    [30, MILLED],
  ] as const)('offset %d, %o: exact', (offset, cut) => {
    const set = cutGearSet(setAtPitchLine(offset, cut), FINE);
    expect(Math.abs(againstFormula(set, OUT) - 1)).toBeLessThan(0.003);
    expect(Math.abs(againstFormula(set, AWAY) - 1)).toBeLessThan(0.003);
  });

  test.each([MILLED, HOBBED])('each flank stands at its own angle to the pitch plane: %o', (cut) => {
    const { blank, convex, concave } = cutGearSet(inventedSet(30, cut));
    for (const [{ ring }, side] of [
      [convex, -1],
      [concave, 1],
    ] as const) {
      const normal = ringNormal(ring, blank.mean);
      const own = Math.asin(Math.abs(dot(normal, blank.toCrown)));
      expect(own - side * blank.limitPressure_rad).toBeCloseTo(degrees(20), 6);
    }
  });

  test.each([MILLED, HOBBED])('with the mark in mid flank the pinion opens a good deal more: %o', (cut) => {
    // Each flank is then touched well below the pitch line, early in the roll on one and late on the other, and the
    // pinion's movement along its axis turns the two touches apart: +30 % and more over the formula.
    const set = cutGearSet(inventedSet(30, cut));
    const [deep, out] = [-0.02, 0.02].map((P) => mesh(set, moved(P, 0)).backlash_mm);
    const atMean = (((out ?? 0) - (deep ?? 0)) / 0.04) * (set.blank.ringMeanRadius_mm / 105);
    expect(atMean / formula(set, OUT)).toBeGreaterThan(1.2);
  });

  test.each([MILLED, HOBBED])('ring gear away gives more, closer less: %o', (cut) => {
    const set = cutGearSet(inventedSet(30, cut));
    const [closer, home, away] = [-0.1, 0, 0.1].map((G) => mesh(set, moved(0, G)).backlash_mm);
    expect(closer).toBeLessThan((home ?? 0) - 0.08);
    expect(away).toBeGreaterThan((home ?? 0) + 0.08);
  });
});

describe('bringing together', () => {
  test.each([moved(0, 0), moved(0.1, 0), moved(-0.1, 0.08)])('agrees with every pair of points tried: %o', (at) => {
    const set = cutGearSet(inventedSet(30, MILLED));
    for (const name of ['convex', 'concave'] as const) {
      const touch = touchOf(bringTogether(set, set[name], at), false);
      for (const roll of [-0.02, 0.03, 0.08]) {
        expect(Math.abs(touch.at(roll) - smallestOfAll(set, name, at, roll)) * 105).toBeLessThan(2e-4);
      }
    }
  });
});

/** First touch with nothing clever: every place of a fine grid stopped at this very roll. */
function smallestOfAll(set: GearSet, name: 'convex' | 'concave', at: Position, roll: number): number {
  let smallest = Infinity;
  for (let i = 0; i <= 120; i += 1) {
    for (let j = 0; j <= 120; j += 1) {
      const point = ringPoint(set.blank, set.frame, set[name].ring, i / 120 - 0.5, j / 120 - 0.5);
      if (!onPinion(set, name, at, point, roll)) continue;
      smallest = Math.min(smallest, stopAngle(set, set[name], at, point, roll));
    }
  }
  return smallest;
}

/** Whether a ring-gear point is opposite the carved part of the pinion, and not beyond its ends or its tip. */
function onPinion(set: GearSet, name: 'convex' | 'concave', at: Position, point: RingPoint, roll: number): boolean {
  const { part } = set[name].pinion;
  const { x, rho } = seenFromPinion(set, at, point, roll);
  const [U, V] = set.frame.fromPinion(x, rho);
  return U > part.U.low && U < part.U.high && V > part.lowAt(U) && V < part.highAt(U);
}

describe('fineness', () => {
  const backlashWith = (part: Partial<typeof DEFAULT_FINENESS>) => {
    const set = cutGearSet(inventedSet(30, MILLED), { ...DEFAULT_FINENESS, ...part });
    return meanGap(set, mesh(set, moved(0.06, -0.04)));
  };

  test.each([
    ['pinion', [6, 6], [12, 12], [24, 24]],
    ['contact', [5, 5], [9, 9], [17, 17]],
    ['paint', [31, 21], [61, 41], [121, 81]],
  ] as const)('halving the step of the %s grid shrinks the change', (grid, coarse, middle, fine) => {
    const [a, b, c] = [coarse, middle, fine].map((size) => backlashWith({ [grid]: size }));
    const [first, second] = [Math.abs((b ?? 0) - (a ?? 0)), Math.abs((c ?? 0) - (b ?? 0))];
    expect(second).toBeLessThan(first / 2);
    // The middle grid is no finer than the default one: what is left is below 0.1 µm.
    expect(second).toBeLessThan(1e-4);
  });
});
