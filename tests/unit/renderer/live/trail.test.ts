import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trail } from '../../../../src/renderer/live/trail.ts';

describe('the trail of a gauge', () => {
  it('keeps the newest readings, oldest first, and forgets the rest', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 60 }), (capacity, count) => {
        const kept = trail(capacity);
        for (let t = 0; t < count; t += 1) kept.push(t, t * 10);
        const wanted = Array.from({ length: count }, (_, t) => ({ t, v: t * 10 })).slice(-capacity);
        expect(kept.points(0)).toEqual(wanted);
      }),
    );
  });

  it('begins where it is asked to', () => {
    const kept = trail(8);
    for (const t of [1, 2, 3, 4]) kept.push(t, t);
    expect(kept.points(3)).toEqual([
      { t: 3, v: 3 },
      { t: 4, v: 4 },
    ]);
  });

  it('marks the place of a lost line before the next reading, once', () => {
    const kept = trail(8);
    kept.push(1, 5);
    kept.cut();
    kept.push(2, 6);
    kept.push(3, 7);
    expect(kept.points(0)).toEqual([
      { t: 1, v: 5 },
      { t: 2, v: { none: 'gap' } },
      { t: 2, v: 6 },
      { t: 3, v: 7 },
    ]);
  });
});
