import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart, boltSequence } from '../../../../../src/shared/axle/arithmetic/boltSequence.ts';

describe('the order in which ring gear bolts are tightened', () => {
  it('goes crosswise on four and on six', () => {
    expect(boltSequence(4)).toEqual([0, 2, 1, 3]);
    const six = boltSequence(6);
    expect(six.slice(0, 2)).toEqual([0, 3]);
    expect(apart(six[2] ?? 0, six[3] ?? 0, 6)).toBe(3);
  });

  it('tightens every bolt once, and never one beside the last', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 40 }), (bolts) => {
        const order = boltSequence(bolts);
        expect(order.toSorted((a, b) => a - b)).toEqual(Array.from({ length: bolts }, (_, place) => place));
        for (const [turn, place] of order.entries()) {
          const last = order[turn - 1];
          if (last !== undefined) expect(apart(place, last, bolts)).toBeGreaterThan(1);
        }
      }),
    );
  });

  it('follows each bolt with the one opposite, where there is one', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 20 }), (half) => {
        const order = boltSequence(2 * half);
        for (let turn = 0; turn < order.length; turn += 2)
          expect(apart(order[turn] ?? 0, order[turn + 1] ?? 0, 2 * half)).toBe(half);
      }),
    );
  });
});
