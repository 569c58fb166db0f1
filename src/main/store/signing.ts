import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';

/** Ed25519 (RFC 8032) by node:crypto; keys as RFC 8037 writes them: 32 bytes, base64url. */

/** The public half of a private key. */
export function publicKeyOf(key: KeyObject): string {
  const { x } = createPublicKey(key).export({ format: 'jwk' });
  if (x === undefined) throw new Error('a key that is not an Ed25519 key');
  return x;
}

export const newKey = (): KeyObject => generateKeyPairSync('ed25519').privateKey;

/** @throws where the text is no private key. */
export const keyFromPem = (pem: string): KeyObject => createPrivateKey(pem);
export const keyToPem = (key: KeyObject): string => key.export({ format: 'pem', type: 'pkcs8' }).toString();

/** The signature of the bytes, 64 bytes as hex. The same key and bytes give the same signature. */
export const signatureOf = (bytes: Uint8Array, key: KeyObject): string => sign(null, bytes, key).toString('hex');

/** Whether the signature is that of these bytes under this key; a key or signature that is none is simply no. */
export function isSignedBy(bytes: Uint8Array, key: string, signature: string): boolean {
  if (!/^[0-9a-f]{128}$/u.test(signature)) return false;
  try {
    const given = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: key }, format: 'jwk' });
    return verify(null, bytes, given, Buffer.from(signature, 'hex'));
  } catch {
    return false;
  }
}

/** What a person compares: the first 16 bytes of the SHA-256 of the public key, in fours. */
export const fingerprintOf = (key: string): string =>
  (createHash('sha256').update(Buffer.from(key, 'base64url')).digest('hex').slice(0, 32).match(/.{4}/gu) ?? []).join(
    ' ',
  );
