import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contactEllipse } from '../../../../../src/shared/axle/mesh/easeoff.ts';
import { evaluate, paintAt } from '../../../../../src/shared/axle/mesh/evaluate.ts';
import { columns, crownOf, heelOf, rows } from '../../../../../src/shared/axle/mesh/flankGrid.ts';
import { flankNames, markSchema } from '../../../../../src/shared/axle/mark/mark.ts';
import { mm } from '../../../../../src/shared/basics/quantity.ts';
import { film, modelOf, position } from './sets.ts';

const models = ['FM', 'FH'].flatMap((cut) =>
  ['example_bevel_12_43', 'example_hypoid_12_43'].map((set) => ({
    name: `${set} ${cut}`,
    model: modelOf({ set, cut }),
  })),
);
const still = position(0, 0);

describe('the painted mark', () => {
  it.each(models)('lies in the middle, clear of every edge, where the set was cut for: $name', ({ model }) => {
    for (const mark of Object.values(evaluate(model, still).marks)) {
      expect(Math.abs(mark.heel)).toBeLessThan(0.02);
      expect(Math.abs(mark.crown)).toBeLessThan(0.02);
      expect(Object.values(mark.edges)).toEqual(['clear', 'clear', 'clear', 'clear']);
    }
  });

  it.each(models)('follows the contact ellipse for a small movement: $name', ({ model }) => {
    const rest = evaluate(model, still).marks;
    const moved = evaluate(model, position(0.01, 0.01)).marks;
    for (const flank of flankNames) {
      const { atMidFlank, easeoff } = model.flanks[flank];
      const slopeU = 0.01 * (atMidFlank.pinionOut.slopeU + atMidFlank.ringAway.slopeU);
      const slopeV = 0.01 * (atMidFlank.pinionOut.slopeV + atMidFlank.ringAway.slopeV);
      const { centre } = contactEllipse({ gap: 0, slopeU, slopeV, ...easeoff }, 0.01);
      expect(moved[flank].heel - rest[flank].heel).toBeCloseTo(centre.u / model.visible.faceWidth, 2);
      expect(moved[flank].crown - rest[flank].crown).toBeCloseTo(centre.v / model.visible.height, 2);
    }
  });

  it.each(models)('is cut by the edge it is pushed over, and its centre stays on the flank: $name', ({ model }) => {
    const { convex, concave } = evaluate(model, position(0.6, 0)).marks;
    const low = evaluate(model, position(-0.6, 0)).marks;
    expect([convex.edges.crown, concave.edges.crown]).toEqual(['hard', 'hard']);
    expect([low.convex.edges.root, low.concave.edges.root]).toEqual(['hard', 'hard']);
    expect(convex.crown).toBeLessThan(0.5);
    expect(convex.height).toBeLessThan(evaluate(model, still).marks.convex.height);
  });

  it('is a valid mark at any position, film and ease-off', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...models.keys()),
        fc.record({
          out: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
          away: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
          um: fc.double({ min: 4, max: 40, noNaN: true }),
          stretch: fc.double({ min: 0.3, max: 3, noNaN: true }),
          bias: fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        }),
        (which, { out, away, um, stretch, bias }) => {
          const model = models[which]?.model ?? modelOf({ set: 'example_bevel_12_43', cut: 'FM' });
          const { a, c } = model.flanks.convex.easeoff;
          const easeoff = { a: a * stretch, b: bias * Math.sqrt(a * c), c: c / stretch };
          const learnt = { ...film(um), easeoff: { convex: easeoff, concave: easeoff } };
          const { marks } = evaluate(model, position(out, away), learnt);
          for (const flank of flankNames) {
            expect(markSchema.safeParse(marks[flank]).success).toBe(true);
            expect(marks[flank].length).toBeGreaterThan(0);
            expect(marks[flank].height).toBeGreaterThan(0);
          }
        },
      ),
      { numRuns: 60, seed: 20250531 },
    );
  });

  it('grows with the film and never shrinks anywhere', () => {
    const { model } = models[2] ?? models[0] ?? { model: modelOf({ set: 'example_hypoid_12_43', cut: 'FM' }) };
    const thin = paintAt(model, 'convex', still, film(6)).covered;
    const thick = paintAt(model, 'convex', still, film(20)).covered;
    expect(thick.every((share, index) => share >= (thin[index] ?? 1) - 0.02)).toBe(true);
    expect(area(thick)).toBeGreaterThan(1.3 * area(thin));
  });

  it('ends where the neighbouring tooth closes first, but for what the film reaches beyond', () => {
    const model = modelOf({ set: 'example_bevel_12_43', cut: 'FH' });
    const { roll, bend } = model.flanks.concave.grid;
    const steep = { a: 1.6e-4, b: 0, c: 1e-3 };
    const { covered } = paintAt(model, 'concave', still, { ...film(20), easeoff: { concave: steep } });
    const rolls = roll.filter((_, index) => (covered[index] ?? 0) > 0.5);
    const pitch = (2 * Math.PI) / model.set.ringTeeth;
    const beyond = Math.sqrt((2 * 0.02) / Math.min(...bend));
    expect(Math.max(...rolls) - Math.min(...rolls)).toBeGreaterThan(0.95 * pitch);
    expect(Math.max(...rolls) - Math.min(...rolls)).toBeLessThan(pitch + 2 * beyond);
  });

  it('takes its cutting error with it: an apex off centre moves the mark by as much', () => {
    const { model } = models[0] ?? { model: modelOf({ set: 'example_bevel_12_43', cut: 'FM' }) };
    const { a, b, c } = model.flanks.convex.easeoff;
    const apex = { u: 0.1 * model.visible.faceWidth, v: -0.08 * model.visible.height };
    const { convex } = evaluate(model, still, { easeoff: { convex: { a, b, c, apex } } }).marks;
    expect(convex.heel).toBeCloseTo(0.1, 1);
    expect(convex.crown).toBeCloseTo(-0.08, 1);
  });

  it('moves smoothly with the shims, so that a slider does not jump', () => {
    const { model } = models[1] ?? { model: modelOf({ set: 'example_hypoid_12_43', cut: 'FM' }) };
    const steps = Array.from({ length: 101 }, (_, step) => evaluate(model, position(0.002 * step - 0.1, 0)).marks);
    for (const [index, marks] of steps.slice(1).entries()) {
      for (const flank of flankNames) {
        expect(Math.abs(marks[flank].heel - (steps[index]?.[flank].heel ?? 9))).toBeLessThan(0.008);
        expect(Math.abs(marks[flank].crown - (steps[index]?.[flank].crown ?? 9))).toBeLessThan(0.008);
      }
    }
  });

  it('runs its grid from toe to heel and root to crown', () => {
    expect([heelOf(0), heelOf(columns - 1), crownOf(0), crownOf(rows - 1)]).toEqual([-0.5, 0.5, -0.5, 0.5]);
  });
});

describe('backlash at a position', () => {
  it.each(models)('is unchanged at rest, grows when either gear moves away: $name', ({ model }) => {
    const at = (out: number, away: number) => evaluate(model, position(out, away)).backlash;
    expect(at(0, 0).transverseMean).toBe(0);
    expect(at(0.1, 0).transverseMean).toBeGreaterThan(0);
    expect(at(-0.1, 0).transverseMean).toBeLessThan(0);
    expect(at(0, 0.1).transverseMean).toBeGreaterThan(at(0.1, 0).transverseMean);
    expect(at(0, -0.1).transverseMean).toBeLessThan(0);
  });

  it('is one free turn read on different bases', () => {
    const model = modelOf({ set: 'example_hypoid_12_43', cut: 'FM' });
    const found = evaluate(model, position(0.05, 0.05)).backlash;
    const { blank, flanks } = model;
    expect(found.transverseMean).toBeCloseTo(found.turn * blank.ringMeanRadius, 12);
    expect(found.transverseHeel / found.transverseMean).toBeCloseTo(blank.ringOuterCone / blank.ringMeanCone, 12);
    for (const flank of flankNames) {
      const square = Math.cos(flanks[flank].pressureAngle) * Math.cos(blank.ringSpiral);
      expect(found.normalMean[flank] / found.transverseMean).toBeCloseTo(square, 12);
      expect(found.normalHeel[flank]).toBeLessThan(found.transverseHeel);
    }
  });

  it('counts from the position the ease-off belongs to, wherever its apex lies', () => {
    const { model } = models[0] ?? { model: modelOf({ set: 'example_bevel_12_43', cut: 'FM' }) };
    const { a, b, c } = model.flanks.convex.easeoff;
    const off = { a, b, c, apex: { u: mm(3), v: mm(1) } };
    expect(evaluate(model, still, { easeoff: { convex: off, concave: off } }).backlash.turn).toBe(0);
  });
});

const area = (covered: Float64Array): number => covered.reduce((sum, share) => sum + share, 0);
