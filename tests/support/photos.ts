import { crc32 } from 'node:zlib';
import { asJpeg, type Photograph, photograph } from '../../hardware-sim/photos/photograph.ts';
import { drawScene, type Spoiling } from '../../hardware-sim/photos/scene.ts';
import { seeded } from '../../hardware-sim/seeded.ts';
import jpeg from 'jpeg-js';

/** A plain JPEG of a size, grey with a slope in it; for where only the file matters. */
export function plainJpeg(width: number, height: number, quality = 90): Buffer {
  const data = new Uint8Array(4 * width * height);
  for (let k = 0; k < width * height; k += 1) data.set([k % 251, (k >> 4) % 251, 120, 255], 4 * k);
  return Buffer.from(jpeg.encode({ width, height, data }, quality).data);
}

/** The same with what a camera writes: an Exif segment that holds a place. */
export function withPlace(picture: Buffer, place: string): Buffer {
  const body = Buffer.concat([Buffer.from('Exif\0\0MM\0*\0\0\0\b\0\0\0\0', 'latin1'), Buffer.from(place, 'latin1')]);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(body.length + 2);
  return Buffer.concat([picture.subarray(0, 2), Buffer.from([0xff, 0xe1]), length, body, picture.subarray(2)]);
}

/** A rendered photograph of a painted flank, as a phone keeps it, with what is true of it. */
export function renderedPhoto(
  seed: number,
  size: readonly [number, number] = [1632, 1224],
  spoilt?: Spoiling,
): { readonly jpeg: Buffer; readonly taken: Photograph } {
  const random = seeded(seed);
  const scene = drawScene(random, size, spoilt);
  const taken = photograph(scene, random);
  return { jpeg: Buffer.from(asJpeg(taken.photo, scene.quality)), taken };
}

/** A PNG of 57 bytes that promises so many pixels and holds none. */
export function pngHead(width: number, height: number): Buffer {
  const chunk = (name: string, body: Buffer): Buffer => {
    const typed = Buffer.concat([Buffer.from(name, 'latin1'), body]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(body.length);
    check.writeUInt32BE(crc32(typed));
    return Buffer.concat([length, typed, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 6, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', Buffer.alloc(0)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** A bitmap of 54 bytes that promises so many pixels: a kind that browsers show and nobody here takes. */
export function bmpHead(width: number, height: number): Buffer {
  const file = Buffer.alloc(54);
  file.write('BM', 'latin1');
  file.writeUInt32LE(54, 10);
  file.writeUInt32LE(40, 14);
  file.writeInt32LE(width, 18);
  file.writeInt32LE(height, 22);
  file.writeUInt16LE(1, 26);
  file.writeUInt16LE(24, 28);
  return file;
}

/** A box of ISO/IEC 14496-12: its length, its name, what is in it. */
const box = (name: string, ...within: readonly Buffer[]): Buffer => {
  const body = Buffer.concat(within);
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + body.length);
  head.write(name, 4, 'latin1');
  return Buffer.concat([head, body]);
};

/** The head of a HEIF or AVIF picture with a thumbnail, its pictures' bytes before or behind it. */
export function heifHead(brand: string, [width, height]: readonly [number, number], behind = false): Buffer {
  const ispe = (...sides: readonly number[]): Buffer => {
    const body = Buffer.alloc(12);
    for (const [n, side] of sides.entries()) body.writeUInt32BE(side, 4 + 4 * n);
    return box('ispe', body);
  };
  const none = Buffer.alloc(4);
  const meta = box('meta', none, box('hdlr', none), box('iprp', box('ipco', ispe(64, 48), ispe(width, height))));
  // What looks like a size within the pictures' own bytes is none.
  const data = box('mdat', ispe(50_000, 50_000), Buffer.alloc(100_000));
  const [first, second] = behind ? [data, meta] : [meta, data];
  return Buffer.concat([box('ftyp', Buffer.from(`${brand}\0\0\0\0mif1`, 'latin1')), first, second]);
}

/** The first bytes of a WebP: RIFF, length, WEBP and one chunk (RFC 9649). */
export const webpHead = (chunk: string): Buffer => Buffer.from(`RIFF\x20\0\0\0WEBP${chunk}`, 'latin1');

/** A JPEG by its segments: start, what stands before the frame, the frame of a coding, start of the scan. */
export function jpegHead(
  coding: number,
  [width, height]: readonly [number, number],
  before: Uint8Array = Buffer.alloc(0),
): Buffer {
  const frame = Buffer.from([0xff, coding, 0, 17, 8, 0, 0, 0, 0, 3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1]);
  frame.writeUInt16BE(height, 5);
  frame.writeUInt16BE(width, 7);
  return Buffer.concat([Buffer.from([0xff, 0xd8]), before, frame, Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0])]);
}
