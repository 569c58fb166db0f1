/** Those who want to hear of something. */
interface Listeners<News extends readonly unknown[]> {
  /** Calls `listener` with every news from now on; the function returned stops that. */
  readonly on: (listener: (...news: News) => void) => () => void;
  readonly tell: (...news: News) => void;
}

/** @param onDefect told of a listener that throws, which then keeps the news from no other; without it, it throws on. */
export function listeners<News extends readonly unknown[]>(onDefect?: (error: unknown) => void): Listeners<News> {
  const hearing = new Set<(...news: News) => void>();
  return {
    on(listener) {
      hearing.add(listener);
      return () => void hearing.delete(listener);
    },
    tell(...news) {
      for (const listener of hearing) {
        try {
          listener(...news);
        } catch (error) {
          if (onDefect === undefined) throw error;
          onDefect(error);
        }
      }
    },
  };
}

/** As {@link Listeners}, for things that are told apart by a key: a topic, a gauge. */
export interface ListenersBy<Key, News extends readonly unknown[]> {
  readonly on: (key: Key, listener: (...news: News) => void) => () => void;
  readonly tell: (key: Key, ...news: News) => void;
}

/** @param onDefect as of {@link listeners}. */
export function listenersBy<Key, News extends readonly unknown[]>(
  onDefect?: (key: Key, error: unknown) => void,
): ListenersBy<Key, News> {
  const by = new Map<Key, Listeners<News>>();
  const fresh = (key: Key): Listeners<News> =>
    onDefect === undefined ? listeners<News>() : listeners<News>((error) => onDefect(key, error));
  return {
    on(key, listener) {
      const those = by.get(key) ?? fresh(key);
      by.set(key, those);
      return those.on(listener);
    },
    tell: (key, ...news) => by.get(key)?.tell(...news),
  };
}
