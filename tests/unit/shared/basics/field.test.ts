import { describe, expect, it } from 'vitest';
import { at } from '../../../../src/shared/basics/at.ts';
import { fieldOf } from '../../../../src/shared/basics/field.ts';

describe('a place in a list', () => {
  it('gives what stands there, a 0 as well', () => {
    expect(at([4, 0, 6], 1)).toBe(0);
    expect(at(Float64Array.of(1.5), 0)).toBe(1.5);
  });

  it.each([-1, 3, 0.5, Number.NaN])('throws for place %s of three', (index) => {
    expect(() => at([1, 2, 3], index)).toThrow(RangeError);
  });
});

describe('a field', () => {
  const field = fieldOf(Float32Array.of(1, 2, 3, 4, 5, 6), 3, 2);

  it('holds row after row', () => {
    expect([0, 1].map((row) => [0, 1, 2].map((column) => field.at(column, row)))).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });

  // Column 3 of row 0 would be column 0 of row 1: the wrong place, with a number in it.
  it.each([
    [3, 0],
    [-1, 1],
    [0, 2],
    [0, -1],
  ])('throws at column %s, row %s', (column, row) => {
    expect(() => field.at(column, row)).toThrow(RangeError);
  });

  it('refuses numbers that do not fill it', () => {
    expect(() => fieldOf(new Float32Array(5), 3, 2)).toThrow('5 numbers do not fill 3 columns and 2 rows');
  });
});
