import { describe, expect, it } from 'vitest';
import { listeners, listenersBy } from '../../../../src/shared/basics/listeners.ts';

describe('listeners', () => {
  it('hear everything from the moment they came until they went', () => {
    const heard: string[] = [];
    const some = listeners<[string, number]>();
    some.tell('before', 0);
    const stop = some.on((word, count) => heard.push(`${word} ${count}`));
    some.on((word) => heard.push(`too: ${word}`));
    some.tell('first', 1);
    stop();
    some.tell('second', 2);
    expect(heard).toEqual(['first 1', 'too: first', 'too: second']);
  });

  it('may go while they are being told', () => {
    const heard: number[] = [];
    const some = listeners<[number]>();
    const stop = some.on((count) => {
      heard.push(count);
      stop();
    });
    some.tell(1);
    some.tell(2);
    expect(heard).toEqual([1]);
  });

  it('keep their news from no other when one of them fails and somebody is told', () => {
    const heard: number[] = [];
    const failures: unknown[] = [];
    const some = listenersBy<string, [number]>((key, error) => failures.push([key, String(error)]));
    some.on('a', () => {
      throw new Error('gone');
    });
    some.on('a', (count) => heard.push(count));
    some.tell('a', 1);
    expect(heard).toEqual([1]);
    expect(failures).toEqual([['a', 'Error: gone']]);
  });

  it('throw on where nobody is told of it', () => {
    const some = listeners<[]>();
    some.on(() => {
      throw new Error('gone');
    });
    expect(() => some.tell()).toThrow('gone');
  });

  it('are told apart by their key', () => {
    const heard: string[] = [];
    const some = listenersBy<string, [number]>();
    some.on('a', (count) => heard.push(`a ${count}`));
    some.on('b', (count) => heard.push(`b ${count}`));
    some.tell('a', 1);
    some.tell('c', 2);
    expect(heard).toEqual(['a 1']);
  });
});
