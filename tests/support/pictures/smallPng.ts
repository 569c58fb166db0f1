import { crc32, deflateSync } from 'node:zlib';
import { PNG } from 'pngjs';

/** As many colours as one byte counts. */
const most = 256;

/**
 * A screenshot with at most 256 colours, a third of its size: screens have few colours, and pictures in a repository stay
 * in it for ever. Colours that are seen most are kept; the others become the nearest of them.
 */
export function smallPng(png: Buffer): Buffer {
  const { width, height, data } = PNG.sync.read(png);
  const pixels = Uint32Array.from({ length: width * height }, (_, at) => data.readUIntBE(at * 4, 3));
  const palette = commonest(pixels);
  const indices = indexed(pixels, palette);
  // Each row begins with its filter; rows of indices are smallest without one.
  const rows = Buffer.alloc((width + 1) * height);
  for (let row = 0; row < height; row += 1) indices.copy(rows, row * (width + 1) + 1, row * width, (row + 1) * width);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 3, 0, 0, 0], 8);
  const colours = Buffer.from(palette.flatMap((colour) => [...channels(colour)]));
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const parts = [chunk('IHDR', head), chunk('PLTE', colours), chunk('IDAT', deflateSync(rows, { level: 9 }))];
  return Buffer.concat([signature, ...parts, chunk('IEND', Buffer.alloc(0))]);
}

/** The colours to keep: one for each of the fullest cells of a grid, so that shades of one colour do not crowd out the rest. */
function commonest(pixels: Uint32Array): readonly number[] {
  const cells = new Map<number, Map<number, number>>();
  for (const colour of pixels) {
    const cell = colour & 0xf8f8f8;
    const seen = cells.get(cell) ?? new Map<number, number>();
    seen.set(colour, (seen.get(colour) ?? 0) + 1);
    cells.set(cell, seen);
  }
  const total = (seen: Map<number, number>): number => [...seen.values()].reduce((sum, count) => sum + count, 0);
  return [...cells.values()]
    .map((seen) => ({ count: total(seen), colour: [...seen].reduce((a, b) => (b[1] > a[1] ? b : a))[0] }))
    .toSorted((a, b) => b.count - a.count)
    .slice(0, most)
    .map(({ colour }) => colour);
}

function indexed(pixels: Uint32Array, palette: readonly number[]): Buffer {
  const known = new Map(palette.map((colour, index) => [colour, index]));
  const nearest = (colour: number): number => {
    const found = palette.reduce(
      (best, one, index) => (apart(one, colour) < apart(palette[best] ?? 0, colour) ? index : best),
      0,
    );
    known.set(colour, found);
    return found;
  };
  return Buffer.from(Uint8Array.from(pixels, (colour) => known.get(colour) ?? nearest(colour)));
}

const channels = (colour: number): readonly [number, number, number] => [
  colour >> 16,
  (colour >> 8) & 255,
  colour & 255,
];

function apart(one: number, other: number): number {
  const [r, g, b] = channels(one);
  const [R, G, B] = channels(other);
  return (r - R) ** 2 + (g - G) ** 2 + (b - B) ** 2;
}

function chunk(kind: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(kind, 'latin1'), body]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(body.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}
