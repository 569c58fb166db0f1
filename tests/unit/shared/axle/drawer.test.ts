import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mm } from '../../../../src/shared/basics/quantity.ts';
import { type DrawerSize, judgePack, stackFor, type StackAnswer } from '../../../../src/shared/axle/drawer.ts';

const size = (thickness: number, count: number): DrawerSize => ({ thickness: mm(thickness), count });

function answer(drawer: readonly DrawerSize[], wanted: number, tolerance: number): StackAnswer {
  const found = stackFor(drawer, mm(wanted), mm(tolerance));
  if (!found.ok) throw new Error(found.problem.sentence);
  return found.value;
}

/** Every combination, by brute force: totals in tenths of a micrometre with their fewest shims. */
function everyPack(drawer: readonly DrawerSize[]): Map<number, number> {
  return drawer.reduce(
    (packs, { thickness, count }) => {
      const next = new Map(packs);
      for (const [total, shims] of packs) {
        for (let taken = 1; taken <= count; taken += 1) {
          const key = total + taken * Math.round(thickness * 1e4);
          next.set(key, Math.min(next.get(key) ?? Infinity, shims + taken));
        }
      }
      return next;
    },
    new Map([[0, 0]]),
  );
}

const drawers = fc.uniqueArray(
  fc.record({ thousandths: fc.integer({ min: 50, max: 700 }), count: fc.integer({ min: 0, max: 3 }) }),
  { minLength: 1, maxLength: 6, selector: ({ thousandths }) => thousandths },
);

describe('the shim drawer', () => {
  it('finds the fewest shims over every combination, and says so when none fits', () => {
    fc.assert(
      fc.property(
        drawers,
        fc.integer({ min: 100, max: 2500 }),
        fc.integer({ min: 0, max: 15 }),
        (list, goal, slack) => {
          const drawer = list.map(({ thousandths, count }) => size(thousandths / 1000, count));
          const packs = [...everyPack(drawer)].filter(
            ([total]) => total > 0 && Math.abs(total - goal * 10) <= slack * 10,
          );
          const found = answer(drawer, goal / 1000, slack / 1000);
          expect(found.fits).toBe(packs.length > 0);
          if (!found.fits) return;
          const fewest = Math.min(...packs.map(([, shims]) => shims));
          const nearest = Math.min(
            ...packs.filter(([, shims]) => shims === fewest).map(([total]) => Math.abs(total - goal * 10)),
          );
          expect(found.stack.shims).toHaveLength(fewest);
          expect(Math.abs(found.stack.off)).toBeCloseTo(nearest / 1e4, 9);
        },
      ),
      { numRuns: 300, seed: 20250531 },
    );
  });

  it('never uses a shim more often than there are, and adds up', () => {
    fc.assert(
      fc.property(drawers, fc.integer({ min: 100, max: 2500 }), (list, goal) => {
        const drawer = list.map(({ thousandths, count }) => size(thousandths / 1000, count));
        const found = answer(drawer, goal / 1000, 0.01);
        for (const stack of found.fits ? [found.stack] : [found.nearest, found.buy.with]) {
          for (const { thickness, count } of drawer) {
            expect(stack.shims.filter((shim) => Math.abs(shim - thickness) < 1e-6).length).toBeLessThanOrEqual(count);
          }
          expect(stack.shims.reduce<number>((sum, shim) => sum + shim, 0)).toBeCloseTo(stack.total, 9);
        }
        if (!found.fits) expect(found.buy.thickness + found.buy.with.total).toBeCloseTo(goal / 1000, 9);
      }),
      { numRuns: 200, seed: 20250531 },
    );
  });

  it('puts thin shims between thick ones', () => {
    const found = answer([size(0.5, 2), size(0.1, 1), size(0.2, 1)], 1.3, 0.001);
    expect(found).toMatchObject({ fits: true, stack: { shims: [0.5, 0.2, 0.1, 0.5] } });
  });

  it('holds inch sizes exactly: 0.0005 in steps beside millimetres', () => {
    const found = answer([size(0.0255 * 25.4, 1), size(0.0035 * 25.4, 1), size(0.5, 2)], 0.029 * 25.4, 0);
    expect(found).toMatchObject({ fits: true });
    expect(found.fits && found.stack.shims).toHaveLength(2);
  });

  it('says which shim to buy, of a thickness such shims come in', () => {
    const found = answer([size(0.5, 1), size(0.3, 1), size(0.1, 1)], 1.05, 0.01);
    expect(found).toMatchObject({ fits: false });
    if (found.fits) return;
    expect(found.nearest.total).toBeCloseTo(0.9, 9);
    expect(found.buy.thickness).toBeGreaterThanOrEqual(0.1);
    expect(found.buy.thickness).toBeLessThanOrEqual(0.5);
    expect(found.buy.thickness + found.buy.with.total).toBeCloseTo(1.05, 9);
  });

  it('answers an empty drawer with the whole pack to buy', () => {
    expect(answer([], 0.76, 0.01)).toMatchObject({ fits: false, buy: { thickness: 0.76, with: { shims: [] } } });
  });

  it('refuses what is no drawer, with the field named', () => {
    expect(stackFor([], mm(0), mm(0.01))).toMatchObject({ problem: { field: 'wanted' } });
    expect(stackFor([], mm(1), mm(-1))).toMatchObject({ problem: { field: 'tolerance' } });
    expect(stackFor([size(25, 1)], mm(1), mm(0))).toMatchObject({ problem: { field: 'thickness' } });
    expect(stackFor([size(0.2, 1.5)], mm(1), mm(0))).toMatchObject({ problem: { field: 'count' } });
  });

  it('judges the pack that was measured, not the sum of its labels', () => {
    expect(judgePack(mm(1.02), mm(1), mm(0.02))).toBe('fits');
    expect(judgePack(mm(1.05), mm(1), mm(0.02))).toBe('too thick');
    expect(judgePack(mm(0.95), mm(1), mm(0.02))).toBe('too thin');
  });
});
