import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { awaitLeaving } from '../../../../src/main/hosts/launcher/leaving.ts';

describe('a bench that stands alone', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** Whether it has ended after so long. */
  async function hasLeft(left: Promise<void>, after_ms: number): Promise<boolean> {
    let is = false;
    void left.then(() => (is = true));
    await vi.advanceTimersByTimeAsync(after_ms);
    return is;
  }

  it('ends when no page has found it', async () => {
    const { left } = awaitLeaving(1000);
    expect(await hasLeft(left, 999)).toBe(false);
    expect(await hasLeft(left, 1)).toBe(true);
  });

  it('stays while one page is open, for however long', async () => {
    const { left, pages } = awaitLeaving(1000);
    pages(1);
    pages(2);
    pages(1);
    expect(await hasLeft(left, 3_600_000)).toBe(false);
  });

  it('ends that long after its last page, and not when that one comes back in time', async () => {
    const { left, pages } = awaitLeaving(1000);
    pages(1);
    pages(0);
    expect(await hasLeft(left, 999)).toBe(false);
    pages(1);
    expect(await hasLeft(left, 5000)).toBe(false);
    pages(0);
    expect(await hasLeft(left, 1000)).toBe(true);
  });

  it('ends by itself no more once it has been ended', async () => {
    const { left, pages, stop } = awaitLeaving(1000);
    pages(1);
    stop();
    // Pages hear of the end only afterwards; a timer begun by that kept the ended bench for five minutes.
    pages(0);
    expect(vi.getTimerCount()).toBe(0);
    expect(await hasLeft(left, 10_000)).toBe(false);
  });
});
