import { heifSize } from './heifSize.ts';
import { isJpeg, jpegFrameSize } from './jpegSegments.ts';

/**
 * What a picture's first bytes say of it, before anything is decoded: a file of 69 bytes may promise 60,000 by 60,000 pixels,
 * and a decoder that believes it takes 14 GB. Layouts: PNG (ISO/IEC 15948 clause 11.2.2), JPEG (ITU-T T.81 annex B), WebP
 * (RFC 9649), HEIF and AVIF (heifSize.ts); all from memory.
 */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** More pixels than any camera in a shop makes; decoded they take four bytes each. */
export const mostPixels = 60_000_000;

/** Deflate makes at most 1,032 bytes out of one: a smaller file cannot hold the pixels that its head promises. */
const mostGrown = 1032;

const text = (bytes: Uint8Array, at: number, letters: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + letters));

const isPng = (bytes: Uint8Array): boolean => bytes[0] === 0x89 && text(bytes, 1, 3) === 'PNG';
const isWebp = (bytes: Uint8Array): boolean => text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 4) === 'WEBP';
const isHeif = (bytes: Uint8Array): boolean =>
  text(bytes, 4, 4) === 'ftyp' && /^(?:hei[cfmsx]|hev[cm]|mif1|msf1|avi[fs])$/u.test(text(bytes, 8, 4));

/** Kinds of picture that are taken; every other kind is refused unread, because nothing here knows how large it would be. */
const isPicture = (bytes: Uint8Array): boolean => isJpeg(bytes) || isPng(bytes) || isWebp(bytes) || isHeif(bytes);

/** Width and height as the head promises them; undefined where it says nothing, or is of no kind that is taken. */
export function pictureSize(bytes: Uint8Array): PictureSize | undefined {
  if (isPng(bytes)) return sized(big(bytes, 16, 4), big(bytes, 20, 4));
  if (isJpeg(bytes)) return jpegFrameSize(bytes);
  if (isWebp(bytes)) return webpSize(bytes);
  return isHeif(bytes) ? heifSize(bytes) : undefined;
}

/** Why a file is not to be decoded at all. */
interface RefusedByHead {
  readonly why: 'no-picture' | 'cut-off' | 'too-many-pixels';
  readonly size: PictureSize;
}

/**
 * Looks at a whole file before any decoder does.
 * @returns why it must not be decoded: it is no JPEG, PNG, WebP, HEIF or AVIF, promises too many pixels, does not say how
 * many, or cannot hold them. Undefined where it may be.
 */
export function refusedByHead(bytes: Uint8Array): RefusedByHead | undefined {
  const size = pictureSize(bytes) ?? { width: 0, height: 0 };
  const pixels = size.width * size.height;
  if (!isPicture(bytes)) return { why: 'no-picture', size };
  if (pixels > mostPixels) return { why: 'too-many-pixels', size };
  const cutOff = pixels === 0 || (isPng(bytes) && pixels > mostGrown * 8 * bytes.length);
  return cutOff ? { why: 'cut-off', size } : undefined;
}

const sized = (width: number, height: number): PictureSize | undefined =>
  width > 0 && height > 0 ? { width, height } : undefined;

/** A whole number of so many bytes, the most significant first. */
const big = (bytes: Uint8Array, at: number, count: number): number =>
  bytes.subarray(at, at + count).reduce((sum, byte) => 256 * sum + byte, 0);
const little = (bytes: Uint8Array, at: number, count: number): number =>
  bytes.subarray(at, at + count).reduceRight((sum, byte) => 256 * sum + byte, 0);

function webpSize(bytes: Uint8Array): PictureSize | undefined {
  const form = text(bytes, 12, 4);
  if (form === 'VP8X') return sized(little(bytes, 24, 3) + 1, little(bytes, 27, 3) + 1);
  if (form === 'VP8L') {
    const bits = little(bytes, 21, 4);
    return sized((bits % 0x40_00) + 1, (Math.floor(bits / 0x40_00) % 0x40_00) + 1);
  }
  return form === 'VP8 ' ? sized(little(bytes, 26, 2) % 0x40_00, little(bytes, 28, 2) % 0x40_00) : undefined;
}
