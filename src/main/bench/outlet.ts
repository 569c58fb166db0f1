import { listenersBy } from '../../shared/basics/listeners.ts';
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
  const all = listenersBy<TopicName, [news: never]>((topic, error) =>
    log.note({ kind: 'defect', where: `news of ${topic}`, ...traceOf(error) }),
  );
  return { hear: all.on, tell: (topic, news) => all.tell(topic, news as never) };
}
