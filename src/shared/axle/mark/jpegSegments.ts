/**
 * The parts of a JPEG file before its picture: which way up it is, and what the camera wrote about time and place.
 * Markers: ITU-T T.81 annex B; orientation: TIFF 6.0 tag 274 inside the Exif segment (both from memory).
 */
interface Segment {
  readonly marker: number;
  /** Of the whole segment with its marker. */
  readonly from: number;
  readonly to: number;
}

const startOfScan = 0xda;
const app1 = 0xe1;
const app15 = 0xef;
const comment = 0xfe;
/** JFIF, colour profile and colour transform: what a decoder needs to show the right colours. */
const kept = new Set([0xe0, 0xe2, 0xee]);

export const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8;

/** Segments up to the picture itself; a broken file gives those before the break. */
function segments(bytes: Uint8Array): readonly Segment[] {
  const found: Segment[] = [];
  let at = 2;
  while (isJpeg(bytes) && bytes[at] === 0xff && at + 4 <= bytes.length) {
    // Any number of bytes 0xff may stand before a marker.
    if (bytes[at + 1] === 0xff) {
      at += 1;
      continue;
    }
    const marker = bytes[at + 1] ?? startOfScan;
    if (marker === startOfScan) break;
    const to = at + 2 + 256 * (bytes[at + 2] ?? 0) + (bytes[at + 3] ?? 0);
    if (to > bytes.length || to < at + 4) break;
    found.push({ marker, from: at, to });
    at = to;
  }
  return found;
}

/** Frame headers of every coding; the three left out are tables. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Width and height as they lie in the file; undefined where the file is broken off before or behind its picture. */
export const jpegSizeOf = (bytes: Uint8Array): { readonly width: number; readonly height: number } | undefined =>
  endsWhole(bytes) ? jpegFrameSize(bytes) : undefined;

/** The same out of the head alone, whether or not the file is whole. */
export function jpegFrameSize(bytes: Uint8Array): { readonly width: number; readonly height: number } | undefined {
  const two = (at: number): number => 256 * (bytes[at] ?? 0) + (bytes[at + 1] ?? 0);
  const sizes = segments(bytes)
    .filter(({ marker, from, to }) => isFrame(marker) && to - from >= 10)
    .map(({ from }) => ({ height: two(from + 5), width: two(from + 7) }));
  // A second frame is against the rules; a decoder that takes it all the same is not to be surprised by it.
  const [largest] = sizes.toSorted((a, b) => b.width * b.height - a.width * a.height);
  return largest !== undefined && largest.width > 0 && largest.height > 0 ? largest : undefined;
}

const endsWhole = (bytes: Uint8Array): boolean => bytes.at(-2) === 0xff && bytes.at(-1) === 0xd9;

/** How the picture lies in the file: 1 upright, 2–8 as Exif numbers the other seven. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** The orientation the camera wrote; 1 where it wrote none, or nonsense. */
export function orientationOf(bytes: Uint8Array): Orientation {
  for (const { marker, from, to } of segments(bytes)) {
    if (marker !== app1 || !startsWith(bytes, from + 4, 'Exif')) continue;
    const value = orientationTag(new DataView(bytes.buffer, bytes.byteOffset + from + 10, to - from - 10));
    if (value >= 1 && value <= 8) return value as Orientation;
  }
  return 1;
}

const startsWith = (bytes: Uint8Array, at: number, word: string): boolean =>
  word.split('').every((letter, n) => bytes[at + n] === letter.charCodeAt(0));

function orientationTag(tiff: DataView): number {
  if (tiff.byteLength < 14) return 1;
  const little = tiff.getUint16(0) === 0x4949;
  const directory = tiff.getUint32(4, little);
  if (directory + 2 > tiff.byteLength) return 1;
  const entries = tiff.getUint16(directory, little);
  for (let n = 0; n < entries; n += 1) {
    const entry = directory + 2 + 12 * n;
    if (entry + 12 > tiff.byteLength) return 1;
    if (tiff.getUint16(entry, little) === 274) return tiff.getUint16(entry + 8, little);
  }
  return 1;
}

/**
 * The file without what the camera wrote about time, place, owner and itself; the picture's bytes are the same. Which
 * way up it is stays, in a segment of its own.
 */
export function withoutCameraData(bytes: Uint8Array): Uint8Array {
  const dropped = segments(bytes).filter(
    ({ marker }) => marker === comment || (marker >= 0xe0 && marker <= app15 && !kept.has(marker)),
  );
  if (dropped.length === 0) return bytes;
  const orientation = orientationOf(bytes);
  const pieces: Uint8Array[] = [bytes.subarray(0, 2)];
  if (orientation !== 1) pieces.push(orientationSegment(orientation));
  let at = 2;
  for (const { from, to } of dropped) {
    pieces.push(bytes.subarray(at, from));
    at = to;
  }
  return joined([...pieces, bytes.subarray(at)]);
}

/** An Exif segment of one entry: marker and length, "Exif", big-endian TIFF, one directory. */
function orientationSegment(orientation: Orientation): Uint8Array {
  const head = [0xff, app1, 0, 34, 0x45, 0x78, 0x69, 0x66, 0, 0];
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8];
  const directory = [0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0];
  return Uint8Array.from([...head, ...tiff, ...directory]);
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
}
