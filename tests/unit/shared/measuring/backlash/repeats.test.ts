import { describe, expect, it } from 'vitest';
import { isFresh, newRepeats } from '../../../../../src/shared/measuring/backlash/repeats.ts';

/** The readings let through, once the gauge has been heard for a while. */
function fresh(values: readonly number[], interval: number, heard = 0): readonly number[] {
  const repeats = newRepeats();
  return values.filter((value) => isFresh(repeats, value, interval)).slice(heard);
}

const each = (values: readonly number[], times: number): readonly number[] =>
  values.flatMap((value) => Array.from({ length: times }, () => value));
const rising = (many: number): readonly number[] => Array.from({ length: many }, (_, index) => index);

describe('a gauge that repeats itself', () => {
  it('is heard once for each time that it looked', () => {
    const through = fresh(each(rising(40), 4), 0.03);
    expect(through.slice(-20)).toEqual(rising(40).slice(-20));
  });

  it('is heard again where it looked again and saw the same', () => {
    const looked = [...rising(30), 30, 30, 30, 31];
    expect(fresh(each(looked, 4), 0.03).slice(-5)).toEqual([29, 30, 30, 30, 31]);
  });

  it('is not taken for one where a value comes alone, as in every stroke', () => {
    const values = [...each(rising(30), 5), 100, ...each(rising(30), 5), 100];
    expect(fresh(values, 0.03).slice(-151)).toEqual(values.slice(-151));
  });

  it('is not told from a gear that rests where it looks that seldom', () => {
    const values = each([...rising(40)], 6);
    expect(fresh(values, 0.3)).toEqual(values);
  });
});
