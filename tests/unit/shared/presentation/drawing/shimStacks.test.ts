import { describe, expect, it } from 'vitest';
import { type StacksInput, stacksScene } from '../../../../../src/shared/presentation/drawing/shimStacks.ts';
import { flat, pathPoints, wordsOf } from '../../../../support/drawings/look.ts';

const input: StacksInput = {
  packs: [
    { name: 'Pinion depth', before_mm: 1.8, now_mm: 1.5 },
    { name: 'Ring-gear side', before_mm: 5.95, now_mm: 5.95 },
    { name: 'Opposite side', before_mm: 6.05 },
  ],
  sides: { before_mm: 12, now_mm: 11.9 },
  system: 'metric',
  size: { width: 360, height: 320, text: 15 },
};

const heights = (test: (style: { fill?: string; dash?: readonly number[] }) => boolean): readonly number[] =>
  flat(stacksScene(input).elements).flatMap((element) => {
    if (element.kind !== 'path' || !test(element)) return [];
    const ys = pathPoints(element.d).map(({ y }) => y);
    return [Math.max(...ys) - Math.min(...ys)];
  });

describe('shim packs', () => {
  it('are drawn to one scale, before as an outline and now filled', () => {
    const now = heights(({ fill }) => fill === 'metal');
    const before = heights(({ dash }) => dash !== undefined);
    expect(now).toHaveLength(2);
    expect(before).toHaveLength(3);
    expect((now[1] ?? 0) / (now[0] ?? 1)).toBeCloseTo(5.95 / 1.5, 2);
    expect((before[2] ?? 0) / (before[0] ?? 1)).toBeCloseTo(6.05 / 1.8, 2);
  });

  it('say the change with its sign where there is one, and nothing where a pack stays', () => {
    const words = wordsOf(stacksScene(input));
    expect(words).toContain('−0.300 mm');
    expect(words.filter((one) => /^[+−]/u.test(one))).toHaveLength(1);
    expect(words).toContain('Both sides 11.900 mm (12.000 mm before)');
  });

  it('tell the same in words', () => {
    expect(stacksScene(input).description).toBe(
      'Pinion depth: 1.500 mm, 1.800 mm before. Ring-gear side: 5.950 mm, 5.950 mm before. Opposite side: not measured, 6.050 mm before. Both sides 11.900 mm (12.000 mm before).',
    );
  });
});
