import { beforeEach, describe, expect, it } from 'vitest';
import { ask } from '../../../../src/renderer/stores/ask.ts';
import { followBench } from '../../../../src/renderer/stores/bench.ts';
import { giveBench } from '../../../../src/renderer/stores/client.ts';
import { putProblemAside, showProblem, useProblem } from '../../../../src/renderer/stores/problems.ts';
import { type Carrier, createClient } from '../../../../src/shared/contract/client.ts';

let tell: (present: boolean) => void;

beforeEach(() => {
  const listeners: ((present: boolean) => void)[] = [];
  const carrier: Carrier = {
    send: () => undefined,
    onText: () => undefined,
    onPresence: (listener) => {
      listeners.push(listener);
      listener(false);
      return () => undefined;
    },
    close: () => undefined,
  };
  tell = (present) => listeners.forEach((listener) => listener(present));
  const client = createClient(carrier);
  giveBench(client);
  followBench(client, () => undefined);
  putProblemAside();
});

const shown = (): string | undefined => useProblem.getState().problem?.kind;

describe('the line that says the bench cannot be reached', () => {
  it('goes when the bench is reached: it said that this is tried again by itself', async () => {
    await ask('builds.list', {});
    expect(shown()).toBe('bench-gone');
    tell(true);
    expect(shown()).toBeUndefined();
  });

  it('takes no other problem with it', () => {
    showProblem({ kind: 'disk-full', sentence: 'The disk is full.', remedy: 'Make room.' });
    tell(true);
    expect(shown()).toBe('disk-full');
  });
});
