import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundedJson } from '../../../src/main/boundedJson.ts';

const of = (text: string): unknown => boundedJson(Buffer.from(text));

describe('JSON from anybody', () => {
  it('is read as it stands', () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        expect(of(text)).toEqual(text.includes('"__proto__":') ? undefined : JSON.parse(text));
      }),
    );
    expect(of('{"a":"[[[[,,,\\"{{"}')).toEqual({ a: '[[[[,,,"{{' });
  });

  it('is refused where it holds too many values or is too deep, before anything is made of it', () => {
    expect(of(`[${'0,'.repeat(1_000_000)}0]`)).toBeUndefined();
    expect(of(`[${'{},'.repeat(600_000)}0]`)).toBeUndefined();
    expect(of(`${'['.repeat(201)}${']'.repeat(201)}`)).toBeUndefined();
    expect(of(`${'['.repeat(200)}${']'.repeat(200)}`)).toBeDefined();
    // Commas within a text are no values: readings are one text of a million of them.
    expect(of(`"${','.repeat(2_000_000)}"`)).toHaveLength(2_000_000);
  });

  it('is none where a name stands twice in one object: who reads it and what reads it would see two values', () => {
    for (const text of [
      '{"a":1,"a":2}',
      '{"a":1,"a":1}',
      '[{"b":{"a":0.2,"c":3,"a":0.4}}]',
      '{"a":1,"\\u0061":2}',
      '{"__proto__":{"a":1},"b":2}',
    ])
      expect(of(text)).toBeUndefined();
    expect(of('{"a":{"a":1},"b":[{"a":1},{"a":2}],"c":":::"}')).toEqual({
      a: { a: 1 },
      b: [{ a: 1 }, { a: 2 }],
      c: ':::',
    });
  });

  it('is none where it is not UTF-8 or not JSON', () => {
    for (const bytes of ['', '{', '{"a":1,}', "{'a':1}", 'NaN']) expect(of(bytes)).toBeUndefined();
    expect(boundedJson(Buffer.from([0x22, 0xff, 0x22]))).toBeUndefined();
  });
});
