import type { Problem, Result } from '../basics/result.ts';
import { fail, ok } from '../basics/result.ts';
import { type ListenersBy, listenersBy } from '../basics/listeners.ts';
import type { Answer, Ask, BenchClient, QuestionName, TopicName } from './contract.ts';
import { questions, topics } from './contract.ts';
import { addressSchema, backMessageSchema, largestMessage_bytes } from './message.ts';
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

interface ClientOptions {
  /** Told of news and texts of a wrong shape, for which nobody waits. */
  readonly onMisshapen?: (problem: Problem) => void;
}

type Waiting = Map<number, { readonly name: QuestionName; readonly answer: (result: Result<unknown>) => void }>;
type Hearing = ListenersBy<TopicName, [news: never]>;

/**
 * The bench over a carrier. Whatever comes back is checked by its schema before anyone sees it; an asker is always
 * answered, with a Problem where what came cannot be used.
 */
export function createClient(carrier: Carrier, { onMisshapen = () => undefined }: ClientOptions = {}): BenchClient {
  const waiting: Waiting = new Map();
  const hearing: Hearing = listenersBy();
  let next = 1;
  let present = false;

  carrier.onText((text) => {
    const problem = taken(text, waiting, hearing);
    if (problem !== undefined) onMisshapen(problem);
  });
  const stopPresence = carrier.onPresence((now) => {
    present = now;
    if (now) return;
    const left = [...waiting.values()];
    waiting.clear();
    for (const { answer } of left) answer(fail(goneProblem));
  });

  return {
    ask<Name extends QuestionName>(name: Name, ask: Ask<Name>): Promise<Result<Answer<Name>>> {
      if (!present) return Promise.resolve(fail(goneProblem));
      const id = next;
      next += 1;
      const text = JSON.stringify({ id, ask: name, with: ask });
      // The carrier would be cut for it, and every other question with it.
      if (text.length > largestMessage_bytes) return Promise.resolve(fail(tooLarge));
      return new Promise((resolve) => {
        waiting.set(id, { name, answer: resolve as (result: Result<unknown>) => void });
        if (isSent(carrier, text)) return;
        waiting.delete(id);
        resolve(fail(goneProblem));
      });
    },
    hear: hearing.on,
    onPresence: (listener) => carrier.onPresence(listener),
    close: () => {
      stopPresence();
      carrier.close();
    },
  };
}

/** A carrier may go between the last word of its presence and this one. */
function isSent(carrier: Carrier, text: string): boolean {
  try {
    carrier.send(text);
    return true;
  } catch {
    return false;
  }
}

/** Hands a text on to whom it is for; what cannot be handed on is a Problem. */
function taken(text: string, waiting: Waiting, hearing: Hearing): Problem | undefined {
  const whole = parsed(text);
  const message = backMessageSchema.safeParse(whole);
  if (message.success)
    return 'topic' in message.data
      ? spread(hearing, message.data.topic, message.data.news)
      : settle(waiting, message.data.id, message.data.result);
  const problem = misshapen('A message of the bench', wordsOf(message.error));
  const address = addressSchema.safeParse(whole);
  return address.success ? settle(waiting, address.data.id, fail(problem)) : problem;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function spread(hearing: Hearing, topic: string, news: unknown): Problem | undefined {
  if (!Object.hasOwn(topics, topic)) return misshapen('News of the bench', `the topic "${topic}" is not known here`);
  const name = topic as TopicName;
  const checked = topics[name].safeParse(news);
  if (!checked.success) return misshapen(`News on ${topic}`, wordsOf(checked.error));
  hearing.tell(name, checked.data as never);
  return undefined;
}

/** What is for nobody any more (the asker was answered when the carrier went) is dropped. */
function settle(waiting: Waiting, id: number, result: Result<unknown>): undefined {
  const asked = waiting.get(id);
  if (asked === undefined) return undefined;
  waiting.delete(id);
  asked.answer(result.ok ? checkedAnswer(asked.name, result.value) : result);
  return undefined;
}

function checkedAnswer(name: QuestionName, value: unknown): Result<unknown> {
  const checked = questions[name].answer.safeParse(value);
  return checked.success ? ok(checked.data) : fail(misshapen(`The answer to ${name}`, wordsOf(checked.error)));
}

/** The kind of problem that ends by itself as soon as the bench is reached again. */
export const benchGone = 'bench-gone';

const goneProblem: Problem = {
  kind: benchGone,
  sentence: 'The bench cannot be reached.',
  remedy: 'It is tried again by itself. What was recorded is on disk.',
};

const tooLarge: Problem = {
  kind: 'too-large',
  sentence: `This is larger than ${largestMessage_bytes / 1024 / 1024} MB, which is more than the bench takes at once.`,
  remedy: 'Send less at once.',
};

const misshapen = (what: string, why: string): Problem => ({
  kind: 'misshapen',
  sentence: `${what} cannot be read: ${why}.`,
  remedy: 'Screens and bench are from different versions: start both again from one folder.',
});
