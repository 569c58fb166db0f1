import type { News, TopicName } from '../../shared/contract/contract.ts';
import { type Log, noLog } from '../log/log.ts';
import { traceOf } from '../log/traceOf.ts';

/** Where the bench's news goes out to whoever listens. */
export interface Outlet {
  hear<Name extends TopicName>(topic: Name, listener: (news: News<Name>) => void): () => void;
  tell<Name extends TopicName>(topic: Name, news: News<Name>): void;
}

/** A listener that fails (its page has just gone) keeps the news from no other. */
export function createOutlet(log: Log = noLog): Outlet {
  const listeners = new Map<TopicName, Set<(news: never) => void>>();
  return {
    hear(topic, listener) {
      const hearing = listeners.get(topic) ?? new Set();
      listeners.set(topic, hearing.add(listener));
      return () => hearing.delete(listener);
    },
    tell(topic, news) {
      for (const listener of listeners.get(topic) ?? []) {
        try {
          listener(news as never);
        } catch (error) {
          log.note({ kind: 'defect', where: `news of ${topic}`, ...traceOf(error) });
        }
      }
    },
  };
}
