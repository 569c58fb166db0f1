import { noughts, type Signer } from './signature.ts';

/** The names of what lies in a certificate's PDF. */
export const fileNames = {
  data: 'certificate.json',
  readings: 'readings.csv',
  signature: 'signature.json',
} as const;

interface Filed {
  readonly name: (typeof fileNames)[keyof typeof fileNames];
  readonly bytes: Buffer;
  readonly type: string;
  readonly description: string;
  readonly relationship: 'Data' | 'Supplement';
}

/** Attaches a file, as it was at `at`. */
export function attach(
  pdf: PDFKit.PDFDocument,
  { name, bytes, type, description, relationship }: Filed,
  at: Date,
): void {
  // The signature is written into its place once the file is whole, so its bytes must stand there as they are.
  pdf.compress = name !== fileNames.signature;
  pdf.file(bytes, {
    name,
    type,
    description,
    relationship,
    creationDate: at,
    modifiedDate: at,
  } as PDFKit.Mixins.PDFAttachmentOptions);
  pdf.compress = true;
}

/**
 * Puts checksums as the format wants them: 16 bytes (ISO 32000-1, table 46), which the library writes as 32 letters. In
 * angle brackets the same letters are bytes, and nothing moves. That of the signature is left out: it is not known before
 * the file is signed.
 */
export function mendChecksums(pdf: Buffer): Buffer {
  const text = pdf.toString('latin1').replaceAll(/\/CheckSum \(([0-9a-f]{32})\)/gu, '/CheckSum <$1>');
  const hole = text.indexOf(`"file":"${noughts}"`);
  const from = text.lastIndexOf('/CheckSum <', hole);
  if (hole < 0 || from < 0) return Buffer.from(text, 'latin1');
  const length = '/CheckSum <>'.length + 32;
  return Buffer.from(text.slice(0, from) + ' '.repeat(length) + text.slice(from + length), 'latin1');
}

const hole = Buffer.from('"file":"');

/** Where the digits of the file's signature stand, given where the signature lies in the file. */
export function signatureHole(pdf: Buffer, signatureAt: number): { readonly from: number; readonly to: number } {
  const from = pdf.indexOf(hole, signatureAt) + hole.length;
  return { from, to: from + noughts.length };
}

/** The file as it was signed: with noughts where its signature is. */
export function unsigned(pdf: Buffer, signatureAt: number): Buffer {
  const { from } = signatureHole(pdf, signatureAt);
  const copy = Buffer.from(pdf);
  copy.write(noughts, from, 'latin1');
  return copy;
}

/** Writes the signature of the file into its place. */
export function signPdf(pdf: Buffer, signer: Signer): Buffer {
  const at = pdf.lastIndexOf(`"file":"${noughts}"`, undefined, 'latin1');
  const { from } = signatureHole(pdf, at);
  pdf.write(signer.sign(pdf), from, 'latin1');
  return pdf;
}
