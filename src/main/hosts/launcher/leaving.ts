/** What ends the bench when nobody is left to work at it. */
interface Leaving {
  /** To be told how many pages are open, whenever that changes. */
  readonly pages: (open: number) => void;
  /** Settles when no page has been open for so long. */
  readonly left: Promise<void>;
  readonly stop: () => void;
}

/**
 * Waits for the last page to go, and then so long that a reload, a browser restarted or a look at another window does not end
 * the bench. Measuring is done by a page, so that without one nothing is being measured. A bench that no page has found yet is
 * waited for as long.
 */
export function awaitLeaving(after_ms: number): Leaving {
  const left = Promise.withResolvers<void>();
  let timer = setTimeout(left.resolve, after_ms);
  let stopped = false;
  return {
    pages(open) {
      clearTimeout(timer);
      // The last pages go after the bench has been ended, too: it must not stay for them.
      if (open === 0 && !stopped) timer = setTimeout(left.resolve, after_ms);
    },
    left: left.promise,
    stop() {
      stopped = true;
      clearTimeout(timer);
    },
  };
}
