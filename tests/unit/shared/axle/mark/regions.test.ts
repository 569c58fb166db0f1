import { describe, expect, test } from 'vitest';
import { cleaned, type Mask, regions } from '../../../../../src/shared/axle/mark/regions.ts';
import { solidity } from '../../../../../src/shared/axle/mark/solidity.ts';
import { twoClasses } from '../../../../../src/shared/axle/mark/twoClasses.ts';

const grid = { columns: 20, rows: 12 };
const maskOf = (inside: (x: number, y: number) => boolean): Mask =>
  Uint8Array.from({ length: 240 }, (_, k) => (inside(k % 20, Math.floor(k / 20)) ? 1 : 0));

describe('the parts of a mask', () => {
  test('are found largest first, joined by sides and not by corners', () => {
    const mask = maskOf((x, y) => (x < 5 && y < 5) || (x === 5 && y === 5));
    expect(regions(mask, grid, 1).map(({ cells }) => cells.length)).toEqual([25, 1]);
  });

  test('lose spots and small holes, keep a second large part', () => {
    const mark = maskOf((x, y) => x > 3 && x < 14 && y > 1 && y < 10 && !(x === 8 && y === 5));
    const spotted = Uint8Array.from(mark, (one, k) => (k === 239 ? 1 : one));
    const clean = cleaned(spotted, grid);
    expect(clean[5 * 20 + 8]).toBe(1);
    expect(clean[239]).toBe(0);
    const two = maskOf((x, y) => (x < 8 && y < 6) || (x > 12 && y > 8));
    expect(cleaned(two, grid)).toEqual(two);
  });
});

describe('solidity', () => {
  const of = (mask: Mask): number => {
    const [largest] = regions(mask, grid, 1);
    return largest === undefined ? Number.NaN : solidity(largest, grid);
  };

  test('is 1 for a rectangle and low for a bent shape', () => {
    expect(of(maskOf((x, y) => x > 3 && x < 12 && y > 2 && y < 9))).toBeCloseTo(1, 9);
    // An L of two bars 3 wide: 3·20 + 3·9 cells over a hull of 240 − ½·17·9.
    expect(of(maskOf((x, y) => y < 3 || x < 3))).toBeCloseTo(87 / (240 - (17 * 9) / 2), 9);
  });
});

describe('two classes', () => {
  test('are parted between two heaps, and one even heap is not explained', () => {
    const two = Float32Array.from({ length: 1000 }, (_, n) => (n % 3 === 0 ? 10 : 60) + (n % 7));
    const split = twoClasses(two, () => true);
    expect(split.threshold).toBeGreaterThan(16);
    expect(split.threshold).toBeLessThan(60);
    expect(split.explained).toBeGreaterThan(0.98);
    const even = twoClasses(
      Float32Array.from({ length: 1000 }, (_, n) => n),
      () => true,
    );
    // An even heap cut in the middle: between-class variance (1/4)² ÷ 1/12 = 3/4 (derived).
    expect(even.explained).toBeCloseTo(0.75, 2);
  });
});
