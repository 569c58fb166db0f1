import { describe, expect, it } from 'vitest';
import { maskOutline } from '../../../../../../src/renderer/screens/checks/photo/maskOutline.ts';
import { markNumbers, nextCorner } from '../../../../../../src/renderer/screens/checks/photo/readingWords.ts';

describe('the outline of a mask', () => {
  it('goes round every side of a single cell, crown above', () => {
    const cells = Uint8Array.from([0, 0, 0, 0, 1, 0, 0, 0, 0]);
    // The middle cell of three by three: between 1 and 2 both ways.
    expect(new Set(maskOutline({ columns: 3, rows: 3, cells }).match(/M[^M]+/gu))).toEqual(
      new Set(['M1 2V1', 'M2 2V1', 'M1 2H2', 'M1 1H2']),
    );
  });

  it('closes at the edges of the flank, and of nothing there is none', () => {
    expect(maskOutline({ columns: 1, rows: 1, cells: Uint8Array.from([1]) }).match(/M/gu)).toHaveLength(4);
    expect(maskOutline({ columns: 4, rows: 2, cells: new Uint8Array(8) })).toBe('');
  });
});

describe('a reading in words', () => {
  const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
  const mark = { heel: -0.08, crown: 0.05, length: 0.5, height: 0.5, slant_deg: 0, edges: clear, area: 0.31 };

  it('names toe and heel, above and below, and how sure it is only where that is known', () => {
    expect(markNumbers({ ...mark, U95: { heel: 0.02, crown: 0.031 } })).toBe(
      'Centre 8 % of the face to the toe ±2 %; 5 % of the height above the middle ±3 %; covers 31 % of the flank; clear of every edge',
    );
    expect(markNumbers({ ...mark, edges: { ...clear, root: 'hard', toe: 'feathered' } })).toMatch(
      /the toe; .* toe feathered, root hard$/u,
    );
    expect(markNumbers(mark)).not.toContain('±');
  });

  it('asks for the corners in the order in which they are read', () => {
    expect([0, 1, 2, 3].map(nextCorner)).toEqual([
      'Tap where toe and root meet (1 of 4)',
      'Tap where toe and crown meet (2 of 4)',
      'Tap where heel and crown meet (3 of 4)',
      'Tap where heel and root meet (4 of 4)',
    ]);
  });
});
