import { constants, zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { packBlock, unpackBlock } from '../journal/blocks/block.ts';
import { storedLine } from '../journal/csv.ts';
import type { StoredRow } from '../journal/storedRow.ts';
import { sample } from './sample.ts';

/** How entries and readings lie in the archive now; whatever is written otherwise later gets another number. */
export const entryFormat = 1;
export const stretchFormat = 1;

/** An entry of the bench has some kilobytes; what is longer than this came by other hands, and is not unpacked. */
export const longestEntry_bytes = 16 * 2 ** 20;
const dictionary = Buffer.from(sample);
/**
 * An entry is about 700 bytes: tables larger than the sample take longer to make than the entry to pack. Level 9 as it comes takes
 * twice the time and saves 2 bytes of 186.
 */
const params = {
  [constants.ZSTD_c_compressionLevel]: 3,
  [constants.ZSTD_c_windowLog]: 15,
  [constants.ZSTD_c_hashLog]: 13,
  [constants.ZSTD_c_chainLog]: 13,
};
const piece_bytes = 4096;

/** An entry's canonical JSON, packed against a sample of entries (Zstandard with a raw dictionary, RFC 8878 section 5). */
export const packEntry = (json: string): Buffer =>
  zstdCompressSync(json, { dictionary, params, chunkSize: piece_bytes });

/** Undefined where it is no entry of a format known here. */
export function unpackEntry(format: number, body: Uint8Array): string | undefined {
  if (format !== entryFormat) return undefined;
  try {
    return zstdDecompressSync(body, { dictionary, maxOutputLength: longestEntry_bytes }).toString('utf8');
  } catch {
    return undefined;
  }
}

/** So many rows go into one block: it is unpacked whole. */
const rowsInBlock = 32_768;

/** The one gauge of a stretch, by the number it has in a block. */
const theGauge = 1;

const ofTheGauge = ([seq, gauge, kind, t, at, value, unit, raw, note]: StoredRow): StoredRow => [
  seq,
  gauge === null ? null : theGauge,
  kind,
  t,
  at,
  value,
  unit,
  raw,
  note,
];

/** A stretch of readings: blocks as the journal packs them, one after the other, each behind its length and its CRC-32. */
export function packStretch(rows: readonly StoredRow[]): Buffer {
  const parts: Uint8Array[] = [];
  for (let from = 0; from < rows.length; from += rowsInBlock) {
    const { bytes, crc } = packBlock(rows.slice(from, from + rowsInBlock).map(ofTheGauge));
    const head = Buffer.alloc(8);
    head.writeUInt32LE(bytes.length, 0);
    head.writeUInt32LE(crc, 4);
    parts.push(head, bytes);
  }
  return Buffer.concat(parts);
}

/** The lines of a stretch as certificates and bundles have them; undefined where it is damaged or of a format not known here. */
export function unpackStretch(format: number, body: Buffer): readonly string[] | undefined {
  if (format !== stretchFormat) return undefined;
  const lines: string[] = [];
  for (let at = 0; at < body.length;) {
    if (at + 8 > body.length) return undefined;
    const end = at + 8 + body.readUInt32LE(at);
    if (end > body.length) return undefined;
    const block = { format: 1, crc: body.readUInt32LE(at + 4), bytes: body.subarray(at + 8, end) };
    const rows = unpackBlock(block, { bytes: true });
    if (rows === undefined) return undefined;
    for (const row of rows) lines.push(storedLine(row));
    at = end;
  }
  return lines;
}
