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
