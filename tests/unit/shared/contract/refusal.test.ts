import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { refusal } from '../../../../src/shared/contract/refusal.ts';
import { holdsTooMuch } from '../../../../src/shared/contract/tooMuch.ts';

const schema = z.strictObject({
  teeth: z.int().min(3).max(60),
  title: z.string().min(1).max(5),
  flank: z.enum(['convex', 'concave']),
  places: z.array(z.number().positive()).min(1).max(2),
  day: z.iso.date(),
  at: z.union([z.literal('heel'), z.strictObject({ radius_mm: z.number() })]),
  yes: z.boolean(),
  bends: z.strictObject({ toe: z.number() }),
});
const good = {
  teeth: 11,
  title: 'axle',
  flank: 'convex',
  places: [1],
  day: '2026-05-31',
  at: 'heel',
  yes: true,
  bends: { toe: 0 },
};

const sentence = (value: unknown): string => {
  const checked = schema.safeParse(value);
  if (checked.success) throw new Error('it was taken');
  return refusal(checked.error, 'The build').sentence;
};

describe('a refused shape', () => {
  it.each([
    [{ teeth: undefined }, 'teeth: missing'],
    [{ teeth: 'twelve' }, 'teeth: not a number'],
    [{ teeth: 12.5 }, 'teeth: not a whole number'],
    [{ teeth: Number.POSITIVE_INFINITY }, 'teeth: not a finite number'],
    [{ teeth: 2 }, 'teeth: below 3'],
    [{ teeth: 61 }, 'teeth: above 60'],
    [{ title: '' }, 'title: empty'],
    [{ title: 'a long one' }, 'title: longer than 5 characters'],
    [{ title: null }, 'title: not text'],
    [{ flank: 'flat' }, 'flank: not "convex" or "concave"'],
    [{ flank: undefined }, 'flank: missing'],
    [{ places: [] }, 'places: empty'],
    [{ places: [1, 2, 3] }, 'places: more than 2'],
    [{ places: [0] }, 'places.0: not above 0'],
    [{ places: 1 }, 'places: not a list'],
    [{ day: 'tomorrow' }, 'day: not a day like 2026-05-31'],
    [{ at: 'toe' }, 'at: none of what may stand here'],
    [{ yes: 1 }, 'yes: not true or false'],
    [{ bends: [] }, 'bends: not a group of fields'],
    [{ extra: 1, more: 2 }, 'the whole: "extra" and "more" not known here'],
  ])('is said in plain words: %j', (change, words) => {
    expect(sentence({ ...good, ...change })).toBe(`The build: ${words}.`);
  });

  it('names a few faults and counts the rest', () => {
    expect(sentence({})).toMatch(/^The build: (?:[a-z]+: missing; ){5}and 3 more faults\.$/u);
    const many = Object.fromEntries(Array.from({ length: 100 }, (_, n) => [`k${n}`, 0]));
    expect(sentence({ ...good, ...many })).toBe('The build: the whole: "k0", "k1", "k2" and 97 more not known here.');
  });
});

describe('a message that holds too much', () => {
  it('is known by the number of its values, however they are laid', () => {
    expect(holdsTooMuch([[1, 2], { a: { b: [3] } }], 8)).toBe(false);
    expect(holdsTooMuch([[1, 2], { a: { b: [3] } }], 7)).toBe(true);
    expect(holdsTooMuch('x'.repeat(1e6), 1)).toBe(false);
    let deep: unknown = 0;
    for (let n = 0; n < 100_000; n += 1) deep = [deep];
    expect(holdsTooMuch(deep)).toBe(true);
  });
});
