import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Of the icon's picture, in pixels; 0 stands for 256 in the file. */
const side = 256;

/**
 * The icon as Windows wants it: one PNG behind a directory of one entry (ICONDIR and ICONDIRENTRY of Microsoft's ICO format; a PNG
 * inside is read since Windows Vista). The layout is from memory.
 */
export function icon(): Buffer {
  const png = readFileSync(join(import.meta.dirname, 'system', 'axlewright.png'));
  const head = Buffer.alloc(22);
  head.writeUInt16LE(1, 2);
  head.writeUInt16LE(1, 4);
  head.writeUInt8(side % 256, 6);
  head.writeUInt8(side % 256, 7);
  head.writeUInt16LE(1, 10);
  head.writeUInt16LE(32, 12);
  head.writeUInt32LE(png.length, 14);
  head.writeUInt32LE(head.length, 18);
  return Buffer.concat([head, png]);
}
