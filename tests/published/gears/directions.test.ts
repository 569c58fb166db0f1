import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../src/shared/axle/mesh/evaluate.ts';
import { flankOf, modelByBlade, modelOf, position } from '../../unit/shared/axle/mesh/sets.ts';
import type { Flank } from '../../../src/shared/axle/mark/mark.ts';
import vectors from './vectors.json' with { type: 'json' };

const scan = vectors.direction_scan.cases.map((wanted) => ({ ...wanted, model: modelOf(wanted) }));
const still = position(0, 0);

describe('directions the manuals agree on', () => {
  it('tests only the statements that may fail a test', () => {
    const binding = vectors.direction_statements.entries.filter((entry) => entry.pass_fail);
    expect(binding.map((entry) => entry.statement)).toEqual([
      'pinion out moves the mark to the crown on both flanks (in: to the root)',
      'ring gear away moves the mark to the heel on the convex flank (closer: to the toe)',
    ]);
  });

  // TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34, TM 10-3930-653-14&P (US Army): pinion too far out → mark
  // high, too near → low. Texts read earlier as stored excerpts.
  it.each(scan)('pinion out → crown, in → root on both flanks: $set $cut $cutter_radius_mm', ({ model }) => {
    for (const flank of ['convex', 'concave'] as const) {
      const at = (out: number): number => evaluate(model, position(out, 0)).marks[flank].crown;
      expect(at(0.05)).toBeGreaterThan(at(0));
      expect(at(-0.05)).toBeLessThan(at(0));
    }
  });

  // TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34 (US Army): ring gear away → heel, closer → toe. Binding on
  // the convex flank only; on the concave one the sources contradict each other.
  it.each(scan)('ring gear away → heel, closer → toe on the convex flank: $set $cut $cutter_radius_mm', ({ model }) => {
    const at = (away: number): number => evaluate(model, position(0, away)).marks.convex.heel;
    expect(at(0.05)).toBeGreaterThan(evaluate(model, still).marks.convex.heel);
    expect(at(-0.05)).toBeLessThan(evaluate(model, still).marks.convex.heel);
  });
});

describe('slopes over 26 geometries, pinned to a sister computation', () => {
  // Derived; the vectors' grid is a little larger, so 4 % or 0.0003. Blades by the cutter axis, as the vectors have them.
  it.each(scan)('$set $cut $cutter_radius_mm tilt $root_tilt_deg', (wanted) => {
    const { convex } = modelByBlade(wanted, 'convex').flanks;
    const { concave } = modelByBlade(wanted, 'concave').flanks;
    const pairs = [
      [convex.atPitchPoint.pinionOut, wanted.P_convex_slope_u_v_per_mm],
      [concave.atPitchPoint.pinionOut, wanted.P_concave_slope_u_v_per_mm],
      [convex.atPitchPoint.ringAway, wanted.G_convex_slope_u_v_per_mm],
      [concave.atPitchPoint.ringAway, wanted.G_concave_slope_u_v_per_mm],
    ] as const;
    for (const [found, [u = NaN, v = NaN]] of pairs) {
      expect(Math.abs(found.slopeU - u)).toBeLessThanOrEqual(Math.max(0.0003, 0.04 * Math.abs(u)));
      expect(Math.abs(found.slopeV - v)).toBeLessThanOrEqual(Math.max(0.0003, 0.04 * Math.abs(v)));
    }
  });

  // Common practice (a gear maker's chart that cannot be named) says, lengthwise for face-milled sets: pinion out convex to
  // heel, concave to toe; ring gear away both to heel. It is shown, never required: derived geometry agrees so often.
  it('is pinned to the sets in which a sister computation agrees with the chart; that is no proof of either', () => {
    const milled = scan.filter(({ cut }) => cut === 'FM').map(({ model }) => model.flanks);
    const count = (agrees: (flanks: (typeof milled)[number]) => boolean): number => milled.filter(agrees).length;
    expect(milled).toHaveLength(18);
    expect(count(({ convex }) => convex.atPitchPoint.pinionOut.slopeU < 0)).toBe(16);
    expect(count(({ concave }) => concave.atPitchPoint.pinionOut.slopeU > 0)).toBe(13);
    expect(count(({ convex }) => convex.atPitchPoint.ringAway.slopeU < 0)).toBe(18);
    expect(count(({ concave }) => concave.atPitchPoint.ringAway.slopeU < 0)).toBe(10);
  });
});

describe('where the lengthwise answer turns round, pinned to a sister computation', () => {
  // Derived: the cutter radius at which the slope along the face is zero, without bias.
  it.each(vectors.lengthwise_sign_flip.cases)('$set $cut $flank $move tilt $root_tilt_deg', (wanted) => {
    const slope = (radius: number): number => {
      const flank = modelByBlade({ ...wanted, cutter_radius_mm: radius }, flankOf(wanted.flank)).flanks[
        flankOf(wanted.flank)
      ];
      return (wanted.move === 'P+' ? flank.atPitchPoint.pinionOut : flank.atPitchPoint.ringAway).slopeU;
    };
    expect(slope(0.985 * wanted.flip_cutter_radius_mm) * slope(1.015 * wanted.flip_cutter_radius_mm)).toBeLessThan(0);
  });
});

describe('offset, pinned to a sister computation', () => {
  // Derived: 12/43, de2 210, b 31, β1 46°. Blades by the cutter axis, as the vectors have them.
  it.each(vectors.offset_sweep.cases)('$offset_mm mm', (wanted) => {
    for (const [cut, slopes] of [
      ['FH', wanted.FH_cutter_84_17_groups_slope_u_per_mm],
      ['FM', wanted.FM_cutter_105_slope_u_per_mm],
    ] as const) {
      const from = { set: 'example_hypoid_12_43', cut };
      const flank = (name: Flank) => modelByBlade(from, name, { offset_mm: wanted.offset_mm }).flanks[name];
      const flanks = { convex: flank('convex'), concave: flank('concave') };
      const near = (found: number, value: number): void => {
        expect(Math.abs(found - value)).toBeLessThanOrEqual(Math.max(0.0002, 0.04 * Math.abs(value)));
      };
      near(flanks.convex.atPitchPoint.pinionOut.slopeU, slopes.P_convex);
      near(flanks.convex.atPitchPoint.ringAway.slopeU, slopes.G_convex);
      near(flanks.concave.atPitchPoint.pinionOut.slopeU, slopes.P_concave);
      near(flanks.concave.atPitchPoint.ringAway.slopeU, slopes.G_concave);
    }
  });
});
