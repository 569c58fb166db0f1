import { describe, expect, it } from 'vitest';
import { type Carrier, createClient } from '../../../../src/shared/contract/client.ts';
import type { Problem } from '../../../../src/shared/basics/result.ts';

/** A client whose carrier the test speaks through. */
function clientOn(send: (text: string) => void = () => undefined) {
  let say: (text: string) => void = () => undefined;
  const misshapen: Problem[] = [];
  const carrier: Carrier = {
    send,
    onText: (listener) => void (say = listener),
    onPresence: (listener) => {
      listener(true);
      return () => undefined;
    },
    close: () => undefined,
  };
  const client = createClient(carrier, { onMisshapen: (problem) => misshapen.push(problem) });
  return { client, misshapen, say: (text: string) => say(text) };
}

describe('an asker is always answered', () => {
  it.each([
    ['an answer of a wrong shape', { id: 1, result: { ok: true, value: { version: 7 } } }],
    ['an answer with a field too many', { id: 1, result: { ok: true, value: [] }, more: true }],
    ['neither yes nor no', { id: 1, result: {} }],
    ['no result', { id: 1 }],
    ['a problem without a sentence', { id: 1, result: { ok: false, problem: { kind: 'x' } } }],
  ])('with a problem, after %s', async (_what, message) => {
    const { client, say } = clientOn();
    const asked = client.ask('bench.about', {});
    say(JSON.stringify(message));
    expect(await asked).toMatchObject({ ok: false, problem: { kind: 'misshapen' } });
  });

  it('also when the carrier goes in the very moment, or takes nothing', async () => {
    const { client } = clientOn(() => {
      throw new Error('still connecting');
    });
    expect(await client.ask('bench.about', {})).toMatchObject({ ok: false, problem: { kind: 'bench-gone' } });
  });

  it('and is told before it is sent what is too large for the bench', async () => {
    const sent: string[] = [];
    const { client } = clientOn((text) => sent.push(text));
    const asked = await client.ask('gauges.typed', { gauge: 'g', text: 'x'.repeat(5_000_000) });
    expect(asked).toMatchObject({ ok: false, problem: { kind: 'too-large' } });
    expect(sent).toEqual([]);
  });
});

describe('what is for nobody', () => {
  it.each([
    ['no JSON', 'half a mess'],
    ['no message', '{"hello":1}'],
    ['news on a topic nobody knows', '{"topic":"weather","news":{}}'],
    ['news on a topic by a name that every object has', '{"topic":"constructor","news":{}}'],
    ['news of a wrong shape', '{"topic":"heard","news":7}'],
  ])('is told and throws nowhere: %s', (_what, text) => {
    const { client, say, misshapen } = clientOn();
    const heard: unknown[] = [];
    client.hear('heard', (news) => heard.push(news));
    say(text);
    expect(misshapen).toMatchObject([{ kind: 'misshapen' }]);
    expect(heard).toEqual([]);
  });

  it('is dropped when its asker was answered before', () => {
    const { say, misshapen } = clientOn();
    say('{"id":77,"result":{"ok":true,"value":{}}}');
    expect(misshapen).toEqual([]);
  });
});
