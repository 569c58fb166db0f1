import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Assembled } from '../../../../hardware-sim/axle/assembled.ts';
import { demoAxle, DEMO_SPEC } from '../../../../hardware-sim/axle/demo.ts';
import { createAxle } from '../../../../hardware-sim/axle/axle.ts';

const TEETH = 41;
const round = Array.from({ length: TEETH }, (_, n) => (n * 2 * Math.PI) / TEETH);
const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const backlash = (axle: Assembled) => round.map((angle) => axle.backlashAt(angle));

describe('the demo axle', () => {
  test('has a depth fault in its first trial and is right in its second, whatever its seed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (seed) => {
        const axle = demoAxle(seed);
        const [first, second] = [axle.assemble(axle.firstTrial), axle.assemble(axle.thirdTrial)];
        expect(mean(backlash(first))).toBeLessThan(0.15);
        const [low, right] = [first.paint(10).convex, second.paint(10).convex];
        expect(low.crown).toBeLessThan(-0.12);
        expect(low.heel).toBeLessThan(right.heel - 0.05);
        expect(low.edges.root).not.toBe('clear');
        expect(Math.abs(right.crown)).toBeLessThan(0.12);
        expect(right.heel).toBeGreaterThan(-0.22);
        expect(right.heel).toBeLessThan(0.12);
        expect(Math.min(...backlash(second))).toBeGreaterThan(0.15);
        expect(Math.max(...backlash(second))).toBeLessThan(0.25);
        expect(spread(backlash(second))).toBeLessThan(0.05);
      }),
      // 577392 came with a feathered root edge where most seeds have a hard one.
      { numRuns: 15, examples: [[577_392]] },
    );
  });

  test('as found it turns easily, has play at the case and more backlash than once it is right', () => {
    const axle = demoAxle(3);
    const [found, final] = [axle.assemble(axle.asFound), axle.assemble(axle.final)];
    expect(mean(backlash(found))).toBeGreaterThan(mean(backlash(final)) + 0.03);
    expect(found.totalDragAt(1)).toBeLessThan(final.totalDragAt(1) / 2);
    expect(found.endPlay_mm).toBeCloseTo(0.04, 6);
    expect(final.endPlay_mm).toBe(0);
  });

  test('the same seed makes the same axle, another seed another', () => {
    const story = (seed: number) => {
      const axle = demoAxle(seed);
      const assembled = axle.assemble(axle.thirdTrial);
      return { backlash: backlash(assembled), paint: assembled.paint(10) };
    };
    expect(story(5)).toEqual(story(5));
    expect(story(6).backlash).not.toEqual(story(5).backlash);
  });
});

describe('shims', () => {
  const axle = demoAxle(1);
  const right = axle.thirdTrial;
  const withShims = (head: number, ring: number, other: number) =>
    axle.assemble({
      ...right,
      shims: {
        head_mm: right.shims.head_mm + head,
        ringSide_mm: right.shims.ringSide_mm + ring,
        otherSide_mm: right.shims.otherSide_mm + other,
      },
    });
  const home = mean(backlash(withShims(0, 0, 0)));

  test('thicker under the head sets the pinion deeper: less backlash, mark lower', () => {
    const deeper = withShims(0.1, 0, 0);
    expect(mean(backlash(deeper))).toBeLessThan(home - 0.02);
    expect(deeper.paint(10).convex.crown).toBeLessThan(withShims(0, 0, 0).paint(10).convex.crown - 0.03);
  });

  test('moved from the other side to the ring-gear side bring the ring gear closer by as much', () => {
    const change = mean(backlash(withShims(0, 0.05, -0.05))) - home;
    // Along rotation at the heel a hypoid of this kind answers with 0.9–1.0 of the movement.
    expect(change / -0.05).toBeGreaterThan(0.85);
    expect(change / -0.05).toBeLessThan(1.1);
  });

  test('as much more on both sides preloads the case and leaves the backlash', () => {
    const tight = withShims(0, 0.1, 0.1);
    expect(mean(backlash(tight))).toBeCloseTo(home, 6);
    expect(tight.totalDragAt(0)).toBeGreaterThan(withShims(0, 0, 0).totalDragAt(0) + 0.2);
  });

  test('too thin together leave end play', () => {
    expect(withShims(0, -0.05, -0.03).endPlay_mm).toBeCloseTo(0.08, 9);
  });

  test('that leave no room between the teeth give no backlash, not less than none', () => {
    expect(Math.min(...backlash(withShims(0, 0.5, -0.5)))).toBe(0);
  });
});

describe('round the gear', () => {
  const plain = {
    ...DEMO_SPEC,
    fitScatter_mm: { head: 0, side: 0 },
    gearCut: { once: { amplitude_mm: 0, highSpot_rad: 0 }, tooth_mm: 0 },
  };
  const right = { shims: { head_mm: 1.5, ringSide_mm: 6, otherSide_mm: 6 }, bearings: 'set-up', seal: false } as const;

  test('backlash follows the back face through the mesh, once the cut adds nothing', () => {
    const assembled = createAxle(plain, 1).assemble(right);
    const values = backlash(assembled);
    const face = round.map((angle) => assembled.backFaceAt(angle));
    const ratio = spread(values) / spread(face);
    // Common practice and arithmetic put the spread of backlash at 0.7–0.9 of the runout; at the heel along rotation
    // and with the indicator outside the teeth's mean radius it may reach 1.
    expect(ratio).toBeGreaterThan(0.7);
    expect(ratio).toBeLessThan(1.05);
    const high = face.indexOf(Math.max(...face));
    expect(values[high]).toBeGreaterThan(mean(values));
  });

  test('an indicator elsewhere round the housing sees the same face later', () => {
    const quarter = createAxle({ ...plain, backFaceFromMesh_rad: Math.PI / 2 }, 1).assemble(right);
    const here = createAxle(plain, 1).assemble(right);
    for (const angle of [0, 1, 4]) {
      expect(quarter.backFaceAt(angle)).toBeCloseTo(here.backFaceAt(angle + Math.PI / 2), 12);
      expect(quarter.backlashAt(angle)).toBeCloseTo(here.backlashAt(angle), 12);
    }
  });

  test('a burr on the back face shows on the indicator and moves no tooth', () => {
    const { burr: _, ...clean } = plain.backFace;
    const without = createAxle({ ...plain, backFace: clean }, 1).assemble(right);
    const withBurr = createAxle(plain, 1).assemble(right);
    const at = plain.backFace.burr?.at_rad ?? 0;
    expect(withBurr.backFaceAt(at) - without.backFaceAt(at)).toBeCloseTo(0.004, 9);
    expect(withBurr.backlashAt(at)).toBe(without.backlashAt(at));
  });

  test('the flange alone runs truer than the gear bolted to it', () => {
    const assembled = createAxle(plain, 1).assemble(right);
    expect(spread(round.map((angle) => assembled.flangeAt(angle)))).toBeLessThan(
      spread(round.map((angle) => assembled.backFaceAt(angle))),
    );
  });
});

describe('turning torque', () => {
  const axle = demoAxle(2);
  const drag = (change: object) => axle.assemble({ ...axle.final, ...change });
  const average = (assembled: Assembled) =>
    mean(Array.from({ length: 360 }, (_, n) => assembled.pinionDragAt((n * Math.PI) / 180)));

  test('grows with the crush of the sleeve and with a thinner preload shim', () => {
    expect(average(drag({ sleeve: { crush_mm: 0.38 } }))).toBeGreaterThan(average(drag({})) + 0.5);
    const shim = (mm: number) => average(axle.assemble({ ...axle.thirdTrial, spacer: { shim_mm: mm } }));
    expect(shim(0.44)).toBeGreaterThan(shim(0.46) + 0.3);
  });

  test('is less in run-in bearings and without the seal', () => {
    expect(average(drag({ bearings: 'used' }))).toBeLessThan(average(drag({})));
    expect(average(drag({})) - average(drag({ seal: false }))).toBeCloseTo(0.35, 9);
  });

  test('adds the case over the ratio, as the torque-sum rule of common practice has it', () => {
    const loose = { ...axle.final.shims, ringSide_mm: 6, otherSide_mm: 6 };
    const [tight, free] = [drag({}), drag({ shims: loose })];
    const perTurn = (assembled: Assembled) =>
      mean(Array.from({ length: 45 * 36 }, (_, n) => assembled.totalDragAt((n * 45 * 2 * Math.PI) / (13 * 45 * 36))));
    // 0.2 mm of squeeze at 8 N·m per mm, seen over 45/13.
    expect(perTurn(tight) - perTurn(free)).toBeCloseTo((0.2 * 8 * 13) / 45, 2);
  });

  test('takes more to start than to keep going, most of all with new bearings and a seal', () => {
    expect(drag({}).breakawayFactor).toBeGreaterThan(drag({ seal: false }).breakawayFactor);
    expect(drag({ seal: false }).breakawayFactor).toBeGreaterThan(1);
  });
});
