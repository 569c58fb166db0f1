import fc from 'fast-check';
import { expect, it } from 'vitest';
import { blobOf, byLetters } from '../../../../src/renderer/photos/bytes.ts';

it('gives back the bytes that were written as base64, by the browser’s own way and letter by letter', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
      const text = Buffer.from(bytes).toString('base64');
      expect(Buffer.from(byLetters(text)).equals(bytes)).toBe(true);
      const blob = blobOf(text, 'image/jpeg');
      expect(Buffer.from(await blob.arrayBuffer()).equals(bytes)).toBe(true);
      expect(blob.type).toBe('image/jpeg');
    }),
  );
});
