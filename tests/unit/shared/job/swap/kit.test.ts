import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sizesIn, withKit } from '../../../../../src/shared/job/swap/kit.ts';

const mm = (value: number) => ({ value, unit: 'mm' });
const empty = { sizes: [] };

describe('a kit of shims', () => {
  it('is every size from the thinnest to the thickest, thickest first', () => {
    const { sizes } = withKit(empty, { use: 'side', from: mm(0.05), to: mm(0.5), step: mm(0.05), each: 4 });
    expect(sizes.map(({ thickness }) => thickness.value)).toEqual([
      0.5, 0.45, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05,
    ]);
    expect(sizes.every(({ count, use }) => count === 4 && use === 'side')).toBe(true);
  });

  it('keeps its unit, and a step in another one is taken for what it is', () => {
    const inch = (value: number) => ({ value, unit: '[in_i]' });
    const kit = { use: 'pinion-depth', from: inch(0.02), to: inch(0.024), step: inch(0.001), each: 2 } as const;
    expect(withKit(empty, kit).sizes.map(({ thickness }) => thickness)).toEqual(
      [0.024, 0.023, 0.022, 0.021, 0.02].map(inch),
    );
    expect(sizesIn({ ...kit, step: mm(0.0254) })).toBe(5);
  });

  it('adds to sizes that lie there already, and leaves other uses alone', () => {
    const before = {
      sizes: [
        { use: 'side', thickness: mm(0.1), count: 3 },
        { use: 'pinion-depth', thickness: mm(0.1), count: 7 },
      ] as const,
    };
    const { sizes } = withKit(
      { sizes: [...before.sizes] },
      { use: 'side', from: mm(0.1), to: mm(0.2), step: mm(0.1), each: 2 },
    );
    expect(sizes.filter(({ use }) => use === 'side').map(({ count }) => count)).toEqual([2, 5]);
    expect(sizes.filter(({ use }) => use === 'pinion-depth')).toEqual([before.sizes[1]]);
  });

  it.each([
    ['the thickest is thinner than the thinnest', mm(0.5), mm(0.1), mm(0.1)],
    ['there is no step', mm(0.1), mm(0.5), mm(0)],
  ])('has no size where %s', (_why, from, to, step) => {
    expect(sizesIn({ from, to, step })).toBe(0);
  });

  it('reaches its last size whatever the step', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 90 }), fc.integer({ min: 1, max: 40 }), (from, steps) => {
        const kit = { from: mm(from / 100), to: mm((from + 5 * steps) / 100), step: mm(0.05) };
        expect(sizesIn(kit)).toBe(steps + 1);
        const [thickest] = withKit(empty, { ...kit, use: 'side', each: 1 }).sizes;
        expect(thickest?.thickness.value).toBeCloseTo((from + 5 * steps) / 100, 7);
      }),
    );
  });
});
