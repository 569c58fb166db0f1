import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keySorter, type Sorted } from '../../../../src/renderer/live/typedByGauge.ts';

/** Types each character so many milliseconds after the one before, then Enter, then nothing. */
function typed(text: string, gap_ms: number, ends = true): Sorted[] {
  const sorter = keySorter();
  let at = 1000;
  const sorted: (Sorted | undefined)[] = [];
  for (const character of text) sorted.push(sorter.character(character, (at += gap_ms)));
  if (ends) sorted.push(sorter.end((at += gap_ms)));
  sorted.push(sorter.quiet(at + 500));
  return sorted.filter((each) => each !== undefined);
}

describe('keys that come in', () => {
  it('at the speed of a machine, with an end, are a line', () => {
    expect(typed('+0.237', 5)).toEqual([{ line: '+0.237' }]);
  });

  it('at the speed of hands are given back one by one, Enter among them as a key of its own', () => {
    expect(typed('0.237', 90)).toEqual(Array.from('0.237', (person) => ({ person })));
  });

  it('fast but without an end are a broken line: never a number', () => {
    expect(typed('12.3', 5, false)).toEqual([{ broken: '12.3' }]);
  });

  it('with two rolled together by a quick hand are the person\u2019s', () => {
    expect(typed('ab', 20, false)).toEqual([{ person: 'ab' }]);
  });

  it('in any order and speed are lost nowhere and taken twice nowhere', () => {
    const keys = fc.array(fc.tuple(fc.constantFrom(...Array.from('0123456789.-x')), fc.integer({ min: 1, max: 120 })), {
      maxLength: 40,
    });
    fc.assert(
      fc.property(keys, (pressed) => {
        const sorter = keySorter();
        let at = 0;
        const out = [...pressed.map(([key, gap]) => sorter.character(key, (at += gap))), sorter.quiet(at + 100)];
        const text = out.map((each) => (each === undefined ? '' : Object.values(each).join(''))).join('');
        expect(text).toBe(pressed.map(([key]) => key).join(''));
      }),
    );
  });
});
