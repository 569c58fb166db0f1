import { z } from 'zod';
import { keySchema } from '../../shared/job/certifying/certificateData.ts';

const hex64 = z.string().regex(/^[0-9a-f]{128}$/u);

/**
 * Signatures by the key of a bench (Ed25519, RFC 8032). `data` is over the bytes of certificate.json, so that the data stay
 * signed when they are taken out of their file; `file` is over the whole PDF with its own 128 digits as noughts, so that not
 * a byte of a page can be changed either, by whatever program it was drawn.
 */
export const signatureSchema = z.strictObject({
  algorithm: z.literal('Ed25519'),
  key: keySchema,
  data: hex64,
  file: hex64.optional(),
});
export type Signature = z.infer<typeof signatureSchema>;

export const noughts = '0'.repeat(128);

/** Who can sign: the identity of a bench. */
export interface Signer {
  readonly sign: (bytes: Uint8Array) => string;
}

export const dataSignature = (key: string, data: string, { sign }: Signer): Signature => ({
  algorithm: 'Ed25519',
  key,
  data: sign(Buffer.from(data)),
});
