import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backupName, madeAt } from '../../../../src/main/backup/form.ts';
import { superseded } from '../../../../src/main/backup/rotation.ts';

const day_ms = 24 * 3600 * 1000;
/** A Monday. */
const monday = Date.parse('2026-08-31T17:30:00.000Z');
const nameAt = (at: number): string => backupName('bench-a', new Date(at).toISOString());

/** What lies on a stick after a backup at each of these moments, in this order. */
function left(moments: readonly number[]): readonly string[] {
  let names: readonly string[] = [];
  for (const at of moments) {
    const just = nameAt(at);
    const all = [...new Set([...names, just])];
    const gone = new Set(superseded(all, 'bench-a', just));
    names = all.filter((name) => !gone.has(name));
  }
  return names;
}

describe('which backups stay', () => {
  it('the last three, and the last of this week and of the three before', () => {
    const daily = Array.from({ length: 60 }, (_, day) => monday + day * day_ms);
    const days = left(daily).map((name) => Math.round(((madeAt(name, 'bench-a')?.getTime() ?? 0) - monday) / day_ms));
    // Weeks of the count since 1970 begin on Thursdays.
    expect(days).toEqual([44, 51, 57, 58, 59]);
  });

  it('always the one just made, never more than seven, and one from before today where there was one', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4e9 }), { minLength: 1, maxLength: 60 }), (moments) => {
        const all = moments.map((offset) => monday + offset);
        const names = left(all);
        expect(names).toContain(nameAt(all.at(-1) ?? 0));
        expect(names.length).toBeLessThanOrEqual(8);
        const inOrder = left(all.toSorted((one, other) => one - other));
        expect(inOrder.length).toBeGreaterThanOrEqual(Math.min(3, new Set(all).size));
      }),
    );
  });

  it('and nothing is touched that is not of this bench', () => {
    const others = [
      backupName('other', '2020-01-01T00:00:00.000Z'),
      'axlewright-bencha-notes.txt',
      'letter.pdf',
      '.backup',
    ];
    expect(superseded([...others, nameAt(monday)], 'bench-a', nameAt(monday))).toEqual([]);
  });
});
