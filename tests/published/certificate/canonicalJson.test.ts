import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { canonicalContent, contentHash } from '../../../src/main/certificate/hash.ts';
import type { CertificateContent } from '../../../src/shared/presentation/certificate/content.ts';

/**
 * Examples of RFC 8785, "JSON Canonicalization Scheme", June 2020: the primitive values of section 3.2.2 and the
 * order of keys of section 3.2.3, recalled from memory. The same numbers, escapes and order were retrieved from the test
 * data that its authors publish (github.com/cyberphone/json-canonicalization, testdata/output: values.json at 1e2733f,
 * weird.json at 77917fb), where the order of the members differs and another emoji is used.
 */
const canonical = (json: string): string => canonicalContent(JSON.parse(json) as CertificateContent);

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
    const content = { b: '€', a: 1 } as unknown as CertificateContent;
    expect(contentHash(content)).toBe(
      createHash('sha256').update(Buffer.from('{"a":1,"b":"€"}', 'utf8')).digest('hex'),
    );
  });
});
