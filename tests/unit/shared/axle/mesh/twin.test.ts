import { describe, expect, it } from 'vitest';
import { cutGearSet, type GearSet } from '../../../../../hardware-sim/axle/mesh/gearSet.ts';
import { describeMark } from '../../../../../hardware-sim/axle/mesh/mark.ts';
import { mesh } from '../../../../../hardware-sim/axle/mesh/mesh.ts';
import { rollThroughMesh } from '../../../../../hardware-sim/axle/mesh/paint.ts';
import { evaluate } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import type { MeshModel } from '../../../../../src/shared/axle/mesh/meshModel.ts';
import { flankNames } from '../../../../../src/shared/axle/mark/mark.ts';
import { degrees } from '../../../../../src/shared/basics/quantity.ts';
import { film, modelOf, position, sets } from './sets.ts';

/**
 * Derived, two ways: the axle twin carves an explicit pinion and brings the two surfaces together by brute force. It
 * shares no code with the model, so what both say is not one error twice. Film 10 µm, relief as a usual mark needs.
 */
const relief = { a: 4.5e-4, c: 3.6e-3, heel: 0.03, crown: -0.04 };
const compound = { um: 10, mm: 0.01 };

interface Pair {
  readonly name: string;
  readonly model: MeshModel;
  readonly twin: GearSet;
}

function pair(set: 'example_bevel_12_43' | 'example_hypoid_12_43', cut: 'FM' | 'FH'): Pair {
  const given = sets[set];
  const easeOff = {
    lengthwise: relief.a,
    bias: 0,
    profile: relief.c,
    apex: { heel: relief.heel, crown: relief.crown },
  };
  const twin = cutGearSet({
    pinionTeeth: given.pinionTeeth,
    ringTeeth: given.ringTeeth,
    outerDiameter_mm: given.outerDiameter_mm,
    faceWidth_mm: given.faceWidth_mm,
    offset_mm: given.offset_mm,
    pinionSpiral_rad: degrees(given.pinionSpiral_deg),
    cutterRadius_mm: cut === 'FM' ? 105 : 84,
    cut: cut === 'FM' ? { kind: 'face-milled', rootTilt_rad: degrees(4.5) } : { kind: 'face-hobbed', bladeGroups: 17 },
    pressure_rad: degrees(20),
    easeOff: { convex: easeOff, concave: easeOff },
    backlash_mm: 0.2,
  });
  return { name: `${set} ${cut}`, model: modelOf({ set, cut }), twin };
}

const pairs = (['example_bevel_12_43', 'example_hypoid_12_43'] as const).flatMap((set) =>
  (['FM', 'FH'] as const).map((cut) => pair(set, cut)),
);

function both({ model, twin }: Pair, out: number, away: number) {
  const apex = { u: relief.heel * model.visible.faceWidth, v: relief.crown * model.visible.height };
  const easeoff = { a: relief.a, b: 0, c: relief.c, apex };
  const found = evaluate(model, position(out, away), {
    ...film(compound.um),
    easeoff: { convex: easeoff, concave: easeoff },
  });
  const rest = mesh(twin, { pinionOut_mm: 0, ringAway_mm: 0 });
  const moved = mesh(twin, { pinionOut_mm: out, ringAway_mm: away });
  const markOf = (flank: 'convex' | 'concave') => describeMark(rollThroughMesh(moved[flank]), twin.frame, compound.mm);
  return {
    found,
    backlash: moved.backlash_mm - rest.backlash_mm,
    marks: { convex: markOf('convex'), concave: markOf('concave') },
  };
}

describe('model and twin', () => {
  it.each(pairs)('see the same marks for movements up to 0.1 mm and 0.2 mm: $name', (set) => {
    for (const [out, away] of [
      [0, 0],
      [0.1, 0],
      [-0.1, 0],
      [0, 0.2],
      [0, -0.1],
    ] as const) {
      const { found, marks } = both(set, out, away);
      for (const flank of flankNames) {
        expect(Math.abs(found.marks[flank].heel - marks[flank].heel)).toBeLessThan(0.01);
        expect(Math.abs(found.marks[flank].crown - marks[flank].crown)).toBeLessThan(0.007);
        expect(Math.abs(found.marks[flank].length - marks[flank].length)).toBeLessThan(0.03);
        expect(Math.abs(found.marks[flank].height - marks[flank].height)).toBeLessThan(0.03);
      }
    }
  });

  it.each(pairs)('still agree at 0.3 mm of pinion movement, where the edges cut: $name', (set) => {
    for (const out of [0.3, -0.3]) {
      const { found, marks } = both(set, out, 0);
      for (const flank of flankNames) {
        expect(Math.abs(found.marks[flank].heel - marks[flank].heel)).toBeLessThan(0.022);
        expect(Math.abs(found.marks[flank].crown - marks[flank].crown)).toBeLessThan(0.022);
      }
    }
  });

  it.each(pairs)('find the same change of backlash: $name', (set) => {
    for (const [out, away, share] of [
      [0.1, 0, 0.035],
      [-0.1, 0, 0.035],
      [0.3, 0, 0.06],
      [-0.3, 0, 0.02],
      [0, 0.2, 0.005],
    ] as const) {
      const { found, backlash } = both(set, out, away);
      expect(Math.abs(found.backlash.transverseHeel / backlash - 1)).toBeLessThan(share);
    }
  });

  it.each(pairs)(
    'agree that depth moves backlash more than the textbook says, because marks lie below the pitch line: $name',
    (set) => {
      const { backlash } = both(set, 0.02, 0);
      const { blank, flanks } = set.model;
      const opening = Math.tan(flanks.convex.pressureAngle) + Math.tan(flanks.concave.pressureAngle);
      const heel = blank.ringOuterCone / blank.ringMeanCone;
      const textbook = ((0.02 * opening) / Math.cos(blank.ringSpiral)) * Math.sin(blank.pinionPitch) * heel;
      expect(backlash / textbook).toBeGreaterThan(1.2);
      expect(backlash / textbook).toBeLessThan(1.6);
    },
  );
});
