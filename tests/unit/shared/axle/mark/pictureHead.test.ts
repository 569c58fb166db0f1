import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pictureSize, refusedByHead } from '../../../../../src/shared/axle/mark/pictureHead.ts';
import { bmpHead, heifHead, jpegHead, plainJpeg, pngHead, webpHead, withPlace } from '../../../../support/photos.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
/** A camera's segment with a thumbnail in it, which is a JPEG with a frame of its own. */
const withThumbnail = (picture: Uint8Array): Buffer => {
  const thumbnail = jpegHead(0xc0, [160, 120]);
  const length = Buffer.from([0, thumbnail.length + 2]);
  return Buffer.concat([picture.subarray(0, 2), Buffer.from([0xff, 0xe1]), length, thumbnail, picture.subarray(2)]);
};
const segment = (marker: number, body: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
};

describe('the head of a picture', () => {
  it.each([
    ['a PNG', pngHead(640, 480)],
    ['a JPEG', plainJpeg(640, 480)],
    ['a progressive JPEG', jpegHead(0xc2, [640, 480])],
    ['an arithmetic JPEG', jpegHead(0xc9, [640, 480])],
    ['a JPEG with what a camera wrote', withPlace(plainJpeg(640, 480), 'a shop')],
    ['a JPEG with a thumbnail before the picture', withThumbnail(plainJpeg(640, 480))],
    ['a JPEG with bytes between its segments', jpegHead(0xc0, [640, 480], Buffer.from([0xff, 0xff, 0xff]))],
    [
      'a JPEG with two megabytes of what a phone wrote',
      jpegHead(0xc2, [640, 480], Buffer.concat(Array.from({ length: 32 }, () => segment(0xe1, Buffer.alloc(65_000))))),
    ],
    ['a plain WebP', webpHead('VP8 \x10\0\0\0\x30\x01\0\x9d\x01\x2a\x80\x02\xe0\x01')],
    ['a lossless WebP', webpHead('VP8L\x10\0\0\0\x2f\x7f\xc2\x77\0')],
    ['an extended WebP', webpHead('VP8X\x0a\0\0\0\0\0\0\0\x7f\x02\0\xdf\x01\0')],
    ['a HEIF with a thumbnail before the picture', heifHead('heic', [640, 480])],
    ['a HEIF whose head lies behind its picture', heifHead('mif1', [640, 480], true)],
    ['an AVIF', heifHead('avif', [640, 480])],
  ])('of %s says how large it is, and may be decoded', (_what, picture) => {
    expect(pictureSize(picture)).toEqual({ width: 640, height: 480 });
    expect(refusedByHead(picture)).toBeUndefined();
  });

  it.each([
    ['a PNG', pngHead(9000, 9000)],
    ['a JPEG', jpegHead(0xc0, [9000, 9000])],
    ['a progressive JPEG', jpegHead(0xc2, [65_535, 65_535])],
    [
      'a JPEG whose second frame is larger than its first',
      jpegHead(0xc0, [9000, 9000], jpegHead(0xc0, [64, 48]).subarray(2, 21)),
    ],
    ['a plain WebP', webpHead('VP8 \x10\0\0\0\x30\x01\0\x9d\x01\x2a\xff\x3f\xff\x3f')],
    ['a lossless WebP', webpHead('VP8L\x10\0\0\0\x2f\xff\xff\xff\x0f')],
    ['an extended WebP', webpHead('VP8X\x0a\0\0\0\0\0\0\0\xff\xff\0\xff\xff\0')],
    ['a HEIF', heifHead('heic', [60_000, 60_000])],
    ['an AVIF whose head lies behind its picture', heifHead('avif', [60_000, 60_000], true)],
  ])('of %s that promises more than 60 million pixels is refused', (_what, picture) => {
    expect(refusedByHead(picture)).toMatchObject({ why: 'too-many-pixels' });
  });

  it.each([
    ['words', bytes('a shopping list')],
    ['an SVG', bytes('<svg xmlns="http://www.w3.org/2000/svg" width="60000" height="60000"/>')],
    ['a PDF', bytes('%PDF-1.7')],
    ['a film', bytes('\0\0\0\x18ftypisom\0\0\0\0')],
    ['a GIF', bytes('GIF89a\xff\xff\xff\xff\0\0\0')],
    ['a bitmap', bmpHead(60_000, 60_000)],
    ['a TIFF', bytes('II*\0\x08\0\0\0')],
    ['an icon', bytes('\0\0\x01\0\x01\0\0\0')],
    ['nothing', bytes('')],
  ])('is not that of %s', (_what, other) => {
    expect(refusedByHead(other)).toMatchObject({ why: 'no-picture' });
  });

  it.each([
    ['a PNG that cannot hold what it promises', pngHead(4000, 4000)],
    ['a PNG of no size', pngHead(0, 480)],
    ['a JPEG without a frame', jpegHead(0xc0, [640, 480]).subarray(0, 8)],
    ['a JPEG that says its height later', jpegHead(0xc0, [640, 0])],
    ['a HEIF without a size', heifHead('heic', [640, 480]).subarray(0, 60)],
    ['a WebP of an unknown form', webpHead('VP9 \0\0\0\0')],
  ])('of %s is refused too', (_what, picture) => {
    expect(refusedByHead(picture)).toMatchObject({ why: 'cut-off' });
  });

  it('lets nothing pass whose size is not known, whatever stands in it', () => {
    const begin = fc.constantFrom(
      pngHead(1, 1).subarray(0, 12),
      Buffer.from([0xff, 0xd8]),
      webpHead('VP8X'),
      heifHead('heic', [2, 2]).subarray(0, 40),
    );
    fc.assert(
      fc.property(begin, fc.uint8Array({ maxLength: 300 }), (head, rest) => {
        const picture = Buffer.concat([head, rest]);
        const { width, height } = pictureSize(picture) ?? { width: 0, height: 0 };
        const passes = refusedByHead(picture) === undefined;
        expect(passes && !(width * height > 0 && width * height <= 60e6)).toBe(false);
      }),
    );
  });
});
