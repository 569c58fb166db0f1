import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { canonicalJson, contentHash } from '../../../src/main/certificate/hash.ts';

/**
 * Examples of RFC 8785, "JSON Canonicalization Scheme", June 2020: the primitive values of section 3.2.2 and the
 * order of keys of section 3.2.3, recalled from memory. The same numbers, escapes and order were retrieved from the test
 * data that its authors publish (github.com/cyberphone/json-canonicalization, testdata/output: values.json at 1e2733f,
 * weird.json at 77917fb), where the order of the members differs and another emoji is used.
 */
const canonical = (json: string): string => canonicalJson(JSON.parse(json));

describe('the canonical JSON of a certificate, against RFC 8785', () => {
  it('writes numbers, literals and strings as section 3.2.2 does', () => {
    const given = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`;
    expect(canonical(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  // Appendix B: a double by its bits, and what is written of it (retrieved: eight tests of other projects quote these rows alike).
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('writes the number %s of appendix B as %s, and reads it back', (bits, written) => {
    const value = Buffer.from(bits, 'hex').readDoubleBE();
    const text = canonicalJson({ value });
    expect(text).toBe(`{"value":${written}}`);
    // Minus nothing is written as nothing.
    expect((JSON.parse(text) as { readonly value: number }).value + 0).toBe(value + 0);
  });

  it.each(['7fffffffffffffff', '7ff0000000000000'])('writes no number for %s, which is none', (bits) => {
    const value = Buffer.from(bits, 'hex').readDoubleBE();
    expect(() => canonicalJson({ value })).toThrow();
  });

  it('sorts keys by their UTF-16 units, as section 3.2.3 does', () => {
    const given = String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh",
      "1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`;
    expect(Object.values(JSON.parse(canonical(given)) as object)).toHaveLength(7);
    const order = [...canonical(given).matchAll(/:"([^"]+)"/gu)].map((match) => match[1]);
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it('hashes exactly those bytes, in UTF-8', () => {
    const content = { b: '€', a: 1 };
    expect(contentHash(content)).toBe(
      createHash('sha256').update(Buffer.from('{"a":1,"b":"€"}', 'utf8')).digest('hex'),
    );
  });
});
