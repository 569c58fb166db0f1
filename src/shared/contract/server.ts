import { fail, type Problem, type Result } from '../basics/result.ts';
import { type BenchService, type QuestionName, questions, type TopicName, topics } from './contract.ts';
import { addressSchema, askMessageSchema } from './message.ts';
import { refusal } from './refusal.ts';
import { holdsTooMuch, mostValues } from './tooMuch.ts';

/**
 * One renderer at the other end of a carrier: takes its questions as JSON text, checks them by schema, has the
 * bench answer, and passes news on. Every host uses this one function, so that no transport can drift.
 * @returns `receive` for incoming text, which never rejects whatever comes, and `hangUp` for when the carrier is gone.
 */
export function attend(
  service: BenchService,
  send: (text: string) => void,
): { receive(text: string): Promise<void>; hangUp(): void } {
  const stops = (Object.keys(topics) as TopicName[]).map((topic) =>
    service.hear(topic, (news) => send(JSON.stringify({ topic, news }))),
  );
  let gone = false;
  // Whoever hung up is owed no answer, and what an answer meets when the bench has ended since is no fault of the bench.
  const onDefect = (where: string, error: unknown): void => {
    if (!gone) service.defect(where, error);
  };
  return {
    async receive(text) {
      if (gone) return;
      try {
        const message = parsed(text);
        const address = addressSchema.safeParse(message);
        // Without an id there is nobody to answer: the sender is not one of our renderers.
        if (!address.success) return;
        const result = await answerTo(service, message, onDefect);
        if (!gone) send(JSON.stringify({ id: address.data.id, result }));
      } catch (error) {
        onDefect('a message', error);
      }
    },
    hangUp() {
      gone = true;
      for (const stop of stops) stop();
    },
  };
}

async function answerTo(
  service: BenchService,
  message: unknown,
  onDefect: BenchService['defect'],
): Promise<Result<unknown>> {
  if (holdsTooMuch(message)) return fail(tooMuch);
  const asked = askMessageSchema.safeParse(message);
  if (!asked.success) return fail(refusal(asked.error, 'The message'));
  const { ask: name, with: given } = asked.data;
  if (!Object.hasOwn(questions, name)) return fail(unknownQuestion(name));
  try {
    return await answer(service, name as QuestionName, given);
  } catch (error) {
    onDefect(name, error);
    return fail(defect(name));
  }
}

async function answer(service: BenchService, name: QuestionName, given: unknown): Promise<Result<unknown>> {
  const ask = questions[name].ask.safeParse(given);
  if (!ask.success) return fail(refusal(ask.error, name));
  return service.answers[name](ask.data as never);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const tooMuch: Problem = {
  kind: 'refused',
  sentence: `The message holds more than ${mostValues} values.`,
  remedy: 'Send it in parts.',
};

const unknownQuestion = (name: string): Problem => ({
  kind: 'unknown-question',
  field: 'ask',
  sentence: `The bench knows no question "${name}".`,
  remedy: 'Screens and bench are from different versions: start both again from one folder.',
});

const defect = (name: string): Problem => ({
  kind: 'defect',
  sentence: `The bench met a fault of its own at ${name}, and goes on.`,
  remedy: 'What was recorded is on disk. Save a report in Settings: it says what happened.',
});
