import type { News, TopicName } from '../../shared/contract/contract.ts';

/** Where the bench's news goes out to whoever listens. */
export interface Outlet {
  hear<Name extends TopicName>(topic: Name, listener: (news: News<Name>) => void): () => void;
  tell<Name extends TopicName>(topic: Name, news: News<Name>): void;
}

export function createOutlet(): Outlet {
  const listeners = new Map<TopicName, Set<(news: never) => void>>();
  return {
    hear(topic, listener) {
      const hearing = listeners.get(topic) ?? new Set();
      listeners.set(topic, hearing.add(listener));
      return () => hearing.delete(listener);
    },
    tell(topic, news) {
      for (const listener of listeners.get(topic) ?? []) listener(news as never);
    },
  };
}
