import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** A value as RFC 8785 canonical JSON: the same value gives the same bytes on every machine. */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error('nothing to be written as JSON');
  return text;
}

export const sha256Of = (bytes: string | Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** SHA-256 of the canonical form, printed on the certificate; anyone can compute it from the attachment. */
export const contentHash = (value: unknown): string => sha256Of(canonicalJson(value));
