import { describe, expect, it } from 'vitest';
import { cellText } from '../../../../src/renderer/parts/tablesText.ts';

describe('a cell on its way into a spreadsheet', () => {
  it('is one line, without the spaces that the page lays it out with', () => {
    expect(cellText('  Station 3\n   0.211 mm\u00a0 ')).toBe('Station 3 0.211 mm');
  });

  it('is no formula, and a number with its sign is a number', () => {
    expect(cellText('=1+1')).toBe("'=1+1");
    expect(cellText('@sum')).toBe("'@sum");
    expect(cellText('-cmd')).toBe("'-cmd");
    expect(cellText('-0.30')).toBe('-0.30');
    expect(cellText('-0.30 mm')).toBe('-0.30 mm');
    expect(cellText('−0.30 mm')).toBe('-0.30 mm');
    expect(cellText('+0.05')).toBe('+0.05');
    expect(cellText('-1+2')).toBe("'-1+2");
  });
});
