import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { everyPage } from '../../../../src/renderer/stores/pages.ts';

interface Item {
  readonly id: string;
}

const itemsOf = (count: number): readonly Item[] => Array.from({ length: count }, (_, n) => ({ id: `b${n}` }));

const pageBehind =
  (items: readonly Item[], full: number) =>
  async (before: string | undefined): Promise<readonly Item[]> => {
    const from = before === undefined ? 0 : items.findIndex(({ id }) => id === before) + 1;
    return items.slice(from, from + full);
  };

describe('a list asked page by page', () => {
  it('is whole and in order, however many items fill a page', () =>
    fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 20 }), async (count, full) => {
        expect(await everyPage(pageBehind(itemsOf(count), full), full)).toEqual(itemsOf(count));
      }),
    ));

  it('ends where a page brings nothing new, and is none where one was not answered', async () => {
    expect(await everyPage(async () => itemsOf(3), 3)).toEqual(itemsOf(3));
    let asked = 0;
    const thenGone = async (): Promise<readonly Item[] | undefined> => ((asked += 1) === 1 ? itemsOf(3) : undefined);
    expect(await everyPage(thenGone, 3)).toBeUndefined();
  });
});
