import type { Problem, Result } from '../basics/result.ts';
import { fail } from '../basics/result.ts';
import type { Answer, Ask, BenchClient, News, QuestionName, TopicName } from './contract.ts';
import { questions, topics } from './contract.ts';
import { backMessageSchema } from './message.ts';
import { wordsOf } from './refusal.ts';

/**
 * What carries messages, as JSON text in both directions: a WebSocket, a message port, a pair of functions.
 * JSON on every transport, so that no transport can pass a value (NaN, undefined, a Date) that another would bend.
 */
export interface Carrier {
  send(text: string): void;
  onText(listener: (text: string) => void): void;
  /** Hears true when messages can pass, false when they no longer can. Called at once with the present state. */
  onPresence(listener: (present: boolean) => void): () => void;
  close(): void;
}

const goneProblem: Problem = {
  kind: 'bench-gone',
  sentence: 'The bench cannot be reached.',
  remedy: 'It is tried again by itself. What was recorded is on disk.',
};

type Waiting = (result: Result<unknown>) => void;

/** The bench over a carrier. Whatever comes back is checked by its schema before anyone sees it. */
export function createClient(carrier: Carrier): BenchClient {
  const waiting = new Map<number, { readonly name: QuestionName; readonly answer: Waiting }>();
  const listeners = new Map<TopicName, Set<(news: never) => void>>();
  let next = 1;
  let present = false;

  carrier.onText((text) => {
    const message = backMessageSchema.safeParse(JSON.parse(text));
    if (!message.success) throw new Error(`a message from the bench has no known shape: ${wordsOf(message.error)}`);
    if ('topic' in message.data) spread(listeners, message.data.topic, message.data.news);
    else settle(waiting, message.data.id, message.data.result);
  });
  const stopPresence = carrier.onPresence((now) => {
    present = now;
    if (now) return;
    for (const { answer } of waiting.values()) answer(fail(goneProblem));
    waiting.clear();
  });

  return {
    ask<Name extends QuestionName>(name: Name, ask: Ask<Name>): Promise<Result<Answer<Name>>> {
      if (!present) return Promise.resolve(fail(goneProblem));
      const id = next;
      next += 1;
      return new Promise((resolve) => {
        waiting.set(id, { name, answer: resolve as Waiting });
        carrier.send(JSON.stringify({ id, ask: name, with: ask }));
      });
    },
    hear<Name extends TopicName>(topic: Name, listener: (news: News<Name>) => void): () => void {
      const hearing = listeners.get(topic) ?? new Set();
      listeners.set(topic, hearing.add(listener));
      return () => hearing.delete(listener);
    },
    onPresence: (listener) => carrier.onPresence(listener),
    close: () => {
      stopPresence();
      carrier.close();
    },
  };
}

function spread(
  listeners: ReadonlyMap<TopicName, ReadonlySet<(news: never) => void>>,
  topic: string,
  news: unknown,
): void {
  if (!(topic in topics)) throw new Error(`the bench has news on an unknown topic: ${topic}`);
  const name = topic as TopicName;
  const checked = topics[name].safeParse(news);
  if (!checked.success) throw new Error(`news on ${topic} has a wrong shape: ${wordsOf(checked.error)}`);
  for (const listener of listeners.get(name) ?? []) listener(checked.data as never);
}

function settle(
  waiting: Map<number, { readonly name: QuestionName; readonly answer: Waiting }>,
  id: number,
  result: Result<unknown>,
): void {
  const asked = waiting.get(id);
  if (asked === undefined) return;
  waiting.delete(id);
  if (!result.ok) return asked.answer(result);
  const checked = questions[asked.name].answer.safeParse(result.value);
  if (!checked.success) throw new Error(`the answer to ${asked.name} has a wrong shape: ${wordsOf(checked.error)}`);
  asked.answer({ ok: true, value: checked.data });
}
