import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { CertificateContent } from '../../shared/presentation/certificate/content.ts';

/** The content as RFC 8785 canonical JSON: the same content gives the same bytes on every machine. */
export function canonicalContent(content: CertificateContent): string {
  const text = canonicalize(content);
  if (text === undefined) throw new Error('a certificate without content');
  return text;
}

/** SHA-256 of the canonical content, printed on the certificate; anyone can compute it from the attachment. */
export const contentHash = (content: CertificateContent): string =>
  createHash('sha256').update(canonicalContent(content)).digest('hex');
