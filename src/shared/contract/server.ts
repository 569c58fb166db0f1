import { fail, type Problem, type Result } from '../basics/result.ts';
import { type BenchService, type QuestionName, questions, type TopicName, topics } from './contract.ts';
import { askMessageSchema } from './message.ts';
import { refusal } from './refusal.ts';

/**
 * One renderer at the other end of a carrier: takes its questions as JSON text, checks them by schema, has the
 * bench answer, and passes news on. Every host uses this one function, so that no transport can drift.
 * @returns `receive` for incoming text and `hangUp` for when the carrier is gone.
 */
export function attend(
  service: BenchService,
  send: (text: string) => void,
): { receive(text: string): Promise<void>; hangUp(): void } {
  const stops = (Object.keys(topics) as TopicName[]).map((topic) =>
    service.hear(topic, (news) => send(JSON.stringify({ topic, news }))),
  );
  return {
    async receive(text) {
      const message = askMessageSchema.safeParse(parsed(text));
      // Without an id there is nobody to answer: the sender is not one of our renderers.
      if (!message.success) return;
      const { id, ask, with: given } = message.data;
      send(JSON.stringify({ id, result: await answer(service, ask, given) }));
    },
    hangUp() {
      for (const stop of stops) stop();
    },
  };
}

async function answer(service: BenchService, name: string, given: unknown): Promise<Result<unknown>> {
  if (!Object.hasOwn(questions, name)) return fail(unknownQuestion(name));
  const known = name as QuestionName;
  const ask = questions[known].ask.safeParse(given);
  if (!ask.success) return fail(refusal(ask.error, name));
  try {
    return await service.answers[known](ask.data as never);
  } catch (error) {
    // A defect in the bench: the renderer learns that it happened, the log of the host has the rest.
    return fail(defect(name, error));
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const unknownQuestion = (name: string): Problem => ({
  kind: 'unknown-question',
  field: 'ask',
  sentence: `The bench knows no question "${name}".`,
  remedy: 'Screens and bench are from different versions: start both again from one folder.',
});

const defect = (name: string, error: unknown): Problem => ({
  kind: 'defect',
  sentence: `The bench failed at ${name}: ${error instanceof Error ? error.message : String(error)}.`,
  remedy: 'What was recorded is on disk. Please send the notebook and this sentence to the makers.',
});
