import { sha256Of } from './hash.ts';
import type { PhotoOf } from './photos.ts';

/** A JPEG lies in a PDF byte for byte as it is (ISO 32000-1, 7.4.8): its dictionary, then its bytes. */
const jpegs = /\/Filter \/DCTDecode[^>]*?\/Length (\d+)[^>]*?>>\s*stream\r?\n/gu;

/** The photos in a certificate's file by the hashes of their bytes, as its data name them. */
export function photosIn(pdf: Buffer): PhotoOf {
  const found = new Map<string, Buffer>();
  for (const { 0: head, 1: length, index } of pdf.toString('latin1').matchAll(jpegs)) {
    const from = index + head.length;
    const bytes = pdf.subarray(from, from + Number(length));
    found.set(sha256Of(bytes), bytes);
  }
  return (sha256) => found.get(sha256);
}
