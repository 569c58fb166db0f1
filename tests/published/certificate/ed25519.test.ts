import { describe, expect, it } from 'vitest';
import { isSignedBy, publicKeyOf, signatureOf } from '../../../src/main/store/signing.ts';
import { keyOf } from '../../support/records/issued.ts';

/**
 * RFC 8032, section 7.1, tests 1 to 3 of Ed25519: secret and public key, message, signature, as hex. Recalled from memory, and
 * 2 and 3 retrieved from the tests of other projects, which quote them alike.
 */
const vectors = [
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
] as const;

/** The bytes of a hex word in the other order: numbers are written with the smallest byte first. */
const turned = (hex: string): string => Buffer.from(Buffer.from(hex, 'hex').toReversed()).toString('hex');

describe('the signature of a bench, against RFC 8032', () => {
  it.each(vectors)('of the secret %s', (secret, key, message, signature) => {
    const [bytes, x] = [Buffer.from(message, 'hex'), Buffer.from(key, 'hex').toString('base64url')];
    expect(publicKeyOf(keyOf(secret))).toBe(x);
    expect(signatureOf(bytes, keyOf(secret))).toBe(signature);
    expect(isSignedBy(bytes, x, signature)).toBe(true);
    expect(isSignedBy(Buffer.concat([bytes, Buffer.from([0])]), x, signature)).toBe(false);
  });

  it('is refused with its last part beyond the order of the group (8.4, malleability)', () => {
    const [, key, message, signature] = vectors[0];
    // S + L for the S of test 1; L = 2^252 + 27742317777372353535851937790883648493 (RFC 8032, 5.1).
    const order = (1n << 252n) + 27_742_317_777_372_353_535_851_937_790_883_648_493n;
    const little = (hex: string): bigint => BigInt(`0x${turned(hex)}`);
    const more = (little(signature.slice(64)) + order).toString(16).padStart(64, '0');
    const forged = `${signature.slice(0, 64)}${turned(more)}`;
    const x = Buffer.from(key, 'hex').toString('base64url');
    expect(isSignedBy(Buffer.from(message, 'hex'), x, forged)).toBe(false);
  });
});
