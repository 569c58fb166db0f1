import { describe, expect, it } from 'vitest';
import { barScene } from '../../../../../src/shared/presentation/drawing/bars.ts';
import type { PathElement } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { flat, pathPoints, wordsOf } from '../../../../support/drawings/look.ts';
import { closeBar, outsideBar } from '../../../../support/drawings/samples.ts';

const hatched = (input: typeof closeBar): readonly PathElement[] =>
  flat(barScene(input).elements).filter(
    (element): element is PathElement => element.kind === 'path' && element.opacity === 0.6,
  );

const bandOf = (input: typeof closeBar): readonly number[] => {
  const band = flat(barScene(input).elements).find((element) => element.kind === 'path' && element.fill === 'band');
  return band?.kind === 'path' ? pathPoints(band.d).map(({ x }) => x) : [];
};

describe('a value against its window', () => {
  it('hatches as far around each limit as the reading is unsure', () => {
    const [left = 0, right = 0] = bandOf(closeBar);
    const scale = (right - left) / 0.1;
    const upper = pathPoints(hatched(closeBar)[1]?.d ?? '').map(({ x }) => x);
    expect(hatched(closeBar)).toHaveLength(2);
    expect(Math.max(...upper) - Math.min(...upper)).toBeCloseTo(0.024 * scale, 0);
    expect((Math.max(...upper) + Math.min(...upper)) / 2).toBeCloseTo(right, 0);
  });

  it('leaves out the hatching where no uncertainty is known', () => {
    const { U95, ...known } = closeBar;
    expect(U95).toBe(0.012);
    expect(hatched(known)).toEqual([]);
  });

  it('runs a window with one limit on to the end', () => {
    expect(Math.min(...bandOf(outsideBar))).toBe(16);
    expect(wordsOf(barScene(outsideBar))).toEqual(['0.05 mm']);
  });

  it('says it in words', () => {
    expect(barScene(closeBar).description).toBe('0.294 mm ± 0.012 mm, too close to call. Window 0.200 mm to 0.300 mm.');
    expect(barScene(outsideBar).description).toContain('At most 0.050 mm.');
  });
});
