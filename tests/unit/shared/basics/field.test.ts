import { describe, expect, test } from 'vitest';
import { at } from '../../../../src/shared/basics/at.ts';
import { Field } from '../../../../src/shared/basics/field.ts';

describe('a place in a list', () => {
  test('gives what stands there, a 0 as well', () => {
    expect(at([4, 0, 6], 1)).toBe(0);
    expect(at(Float64Array.of(1.5), 0)).toBe(1.5);
  });

  test.each([-1, 3, 0.5, Number.NaN])('throws for place %s of three', (index) => {
    expect(() => at([1, 2, 3], index)).toThrow(RangeError);
  });
});

describe('a field', () => {
  const field = new Field(3, 2, Float32Array.of(1, 2, 3, 4, 5, 6));

  test('is counted along its rows', () => {
    expect(field.at(2, 0)).toBe(3);
    expect(field.at(0, 1)).toBe(4);
    expect(field.cell(4)).toBe(5);
    expect(field.mean()).toBe(3.5);
  });

  test('takes a place outside for the defect it is', () => {
    // Column 3 of row 0 would be column 0 of row 1: the wrong place, with a number in it.
    expect(() => field.at(3, 0)).toThrow(RangeError);
    expect(() => field.at(-1, 0)).toThrow(RangeError);
    expect(() => field.at(0, 2)).toThrow(RangeError);
    expect(() => field.cell(6)).toThrow(RangeError);
    expect(() => new Field(3, 2, new Float32Array(5))).toThrow(RangeError);
  });

  test('makes new ones and leaves itself alone', () => {
    expect([...field.map((value, cell) => value * 10 + cell).values]).toEqual([10, 21, 32, 43, 54, 65]);
    expect([...field.where((value, cell) => value > 2 && cell !== 3)]).toEqual([0, 0, 1, 0, 1, 1]);
    expect(field.cell(0)).toBe(1);
  });
});
