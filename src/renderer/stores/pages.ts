/**
 * Asks page after page of a list until one is not full.
 * @param page asks for what lies behind the item named; undefined where the bench could not answer.
 * @param full how many items a full page has.
 * @returns everything, each item once; undefined where a page was not answered.
 */
export async function everyPage<T extends { readonly id: string }>(
  page: (before: string | undefined) => Promise<readonly T[] | undefined>,
  full: number,
): Promise<readonly T[] | undefined> {
  const all = new Map<string, T>();
  for (let before: string | undefined; ;) {
    const items = await page(before);
    if (items === undefined) return undefined;
    const known = all.size;
    for (const item of items) all.set(item.id, item);
    // A page that brings nothing new ends it too: the list may have changed between two pages.
    if (items.length < full || all.size === known) return [...all.values()];
    before = items.at(-1)?.id;
  }
}
