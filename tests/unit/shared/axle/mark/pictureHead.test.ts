import { describe, expect, it } from 'vitest';
import { isPicture, mayBeDecoded, pictureSize } from '../../../../../src/shared/axle/mark/pictureHead.ts';
import { plainJpeg, pngHead, withPlace } from '../../../../support/photos.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
/** RIFF, length, WEBP and one chunk, by RFC 9649. */
const webp = (chunk: string): Uint8Array => bytes(`RIFF\x20\0\0\0WEBP${chunk}`);

describe('the head of a picture', () => {
  it.each([
    ['a PNG', pngHead(640, 480)],
    ['a JPEG', plainJpeg(640, 480)],
    ['a JPEG with what a camera wrote', withPlace(plainJpeg(640, 480), 'a shop')],
    ['a plain WebP', webp('VP8 \x10\0\0\0\x30\x01\0\x9d\x01\x2a\x80\x02\xe0\x01')],
    ['a lossless WebP', webp('VP8L\x10\0\0\0\x2f\x7f\xc2\x77\0')],
    ['an extended WebP', webp('VP8X\x0a\0\0\0\0\0\0\0\x7f\x02\0\xdf\x01\0')],
    [
      'a HEIF with a thumbnail before the picture',
      bytes(
        '\0\0\0\x18ftypheic\0\0\0\0\0\0\0\x14ispe\0\0\0\0\0\0\0\x40\0\0\0\x30\0\0\0\x14ispe\0\0\0\0\0\0\x02\x80\0\0\x01\xe0',
      ),
    ],
  ])('of %s says how large it is', (_what, picture) => {
    expect(isPicture(picture)).toBe(true);
    expect(pictureSize(picture)).toEqual({ width: 640, height: 480 });
  });

  it.each([
    ['words', bytes('a shopping list')],
    ['an SVG', bytes('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['a PDF', bytes('%PDF-1.7')],
    ['a film', bytes('\0\0\0\x18ftypisom\0\0\0\0')],
    ['nothing', bytes('')],
  ])('is not that of %s', (_what, other) => {
    expect(isPicture(other)).toBe(false);
    expect(mayBeDecoded(other)).toBe(false);
  });

  it('may not promise more than is taken, or than the file can hold', () => {
    expect(mayBeDecoded(plainJpeg(640, 480))).toBe(true);
    expect(mayBeDecoded(pngHead(9000, 9000))).toBe(false);
    expect(mayBeDecoded(pngHead(4000, 4000))).toBe(false);
  });
});
