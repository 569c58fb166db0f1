import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareMarks } from '../../../../../src/shared/axle/mark/compare.ts';
import { markAt } from './marks.ts';

const hard = (edge: 'toe' | 'heel' | 'crown' | 'root') => ({
  edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear', [edge]: 'hard' } as const,
});

describe('two marks on one flank', () => {
  test('that are the same overlap wholly and have not moved', () => {
    const same = compareMarks(markAt(0.1, -0.1), markAt(0.1, -0.1));
    expect(same.overlap).toBe(1);
    expect(same.withinReading).toBe(true);
    expect(same.warnings).toEqual([]);
  });

  test('that lie apart do not overlap, and have moved', () => {
    const apart = compareMarks(
      markAt(0.3, 0.3, { length: 0.3, height: 0.3 }),
      markAt(-0.3, -0.3, { length: 0.3, height: 0.3 }),
    );
    expect(apart.overlap).toBe(0);
    expect(apart.heel).toMatchObject({ verdict: 'moved', knows: 'exact' });
    expect(apart.heel.by).toBeCloseTo(0.6, 9);
  });

  test('overlap as much either way round', () => {
    const place = fc.double({ min: -0.3, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(place, place, place, (a, b, c) => {
        const [one, other] = [markAt(a, b), markAt(c, 0)];
        expect(compareMarks(one, other).overlap).toBeCloseTo(compareMarks(other, one).overlap, 9);
      }),
    );
  });

  test('are the same within what both readings can tell, √(0.03² + 0.03²) along the face', () => {
    expect(compareMarks(markAt(0.042, 0), markAt(0, 0)).heel.verdict).toBe('same');
    expect(compareMarks(markAt(0.043, 0), markAt(0, 0)).heel.verdict).toBe('moved');
  });

  test('are bounds where an edge cuts one of them', () => {
    // The later mark goes on beyond the crown: it has climbed at least as far as is seen.
    expect(compareMarks(markAt(0, 0.3, hard('crown')), markAt(0, 0)).crown).toMatchObject({
      knows: 'at-least',
      verdict: 'moved',
    });
    // The earlier one went on beyond the crown: coming down to the middle it has sunk at least as far as is seen.
    expect(compareMarks(markAt(0, 0), markAt(0, 0.3, hard('crown'))).crown).toMatchObject({
      knows: 'at-least',
      verdict: 'moved',
    });
    // Seen lower than before, but cut at the crown: it has sunk at most so far.
    expect(compareMarks(markAt(0, 0.1, hard('crown')), markAt(0, 0.3)).crown).toMatchObject({
      knows: 'at-most',
      verdict: 'bound',
    });
    // Both cut at the crown: nothing is known.
    expect(compareMarks(markAt(0, 0.3, hard('crown')), markAt(0, 0.2, hard('crown'))).crown.knows).toBe('nothing');
  });

  test('made differently are compared with a warning', () => {
    const made = (film_um: number, turns: number) => ({ made: { film_um, turns, bearings: 'used' as const } });
    expect(compareMarks(markAt(0, 0, made(10, 4)), markAt(0, 0, made(11, 4))).warnings).toEqual([]);
    expect(compareMarks(markAt(0, 0, made(10, 4)), markAt(0, 0, made(20, 12))).warnings).toHaveLength(2);
    expect(compareMarks(markAt(0, 0, made(10, 4)), markAt(0, 0)).warnings[0]).toMatch(/not known/u);
  });

  test('drawn by hand carry an assumed uncertainty and say so', () => {
    const { U95: _, ...drawn } = markAt(0.05, 0);
    const compared = compareMarks(drawn, markAt(0, 0));
    expect(compared.heel.verdict).toBe('same');
    expect(compared.warnings.join(' ')).toMatch(/assumed/u);
  });
});
