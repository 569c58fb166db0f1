import { describe, expect, test } from 'vitest';
import { labOf, lightOfByte, luminance } from '../../../src/shared/axle/mark/labColour.ts';

/**
 * sRGB to CIE L*a*b* under D65, 2°. Source: Bruce Lindbloom's colour calculator (brucelindbloom.com, sRGB, D65, no
 * adaptation), as quoted by several public test suites; the page itself was not opened for this test. Its matrix has
 * more digits than IEC 61966-2-1's four, which is what the tolerance of 0.05 is for.
 */
const published = [
  ['white', [255, 255, 255], [100, 0, 0]],
  ['black', [0, 0, 0], [0, 0, 0]],
  ['red', [255, 0, 0], [53.2408, 80.0925, 67.2032]],
  ['green', [0, 255, 0], [87.7347, -86.1827, 83.1793]],
  ['blue', [0, 0, 255], [32.297, 79.1875, -107.8602]],
  ['middle grey', [128, 128, 128], [53.585, 0, 0]],
  ['a muted blue', [100, 150, 200], [60.5072, -2.7871, -30.9306]],
] as const;

describe('CIE L*a*b*', () => {
  test.each(published)('of %s is as published', (_, rgb, lab) => {
    const [red = 0, green = 0, blue = 0] = rgb.map((byte) => lightOfByte[byte] ?? Number.NaN);
    labOf(red, green, blue).forEach((value, n) => expect(Math.abs(value - (lab[n] ?? Number.NaN))).toBeLessThan(0.05));
  });

  test('the straight part joins the cube root where CIE 15 joins them', () => {
    // (6/29)^3 = 0.008856…: L* there is 8 by definition.
    expect(labOf((6 / 29) ** 3, (6 / 29) ** 3, (6 / 29) ** 3)[0]).toBeCloseTo(8, 6);
  });

  test('luminance of the primaries is that of IEC 61966-2-1', () => {
    expect([luminance(1, 0, 0), luminance(0, 1, 0), luminance(0, 0, 1)]).toEqual([0.2126, 0.7152, 0.0722]);
  });
});
