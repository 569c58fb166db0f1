import { constants, zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { packBlock, unpackBlock } from '../journal/blocks/block.ts';
import { csvLine } from '../journal/csv.ts';
import type { JournalRow } from '../journal/entry.ts';
import { rowFrom, type StoredRow } from '../journal/storedRow.ts';
import { sample } from './sample.ts';

/** How entries and readings lie in the archive now; whatever is written otherwise later gets another number. */
export const entryFormat = 1;
export const stretchFormat = 1;

const longest_bytes = 16 * 2 ** 20;
const dictionary = Buffer.from(sample);
const level = { [constants.ZSTD_c_compressionLevel]: 9 };

/** An entry's canonical JSON, packed against a sample of entries (Zstandard with a raw dictionary, RFC 8878 section 5). */
export const packEntry = (json: string): Buffer => zstdCompressSync(json, { dictionary, params: level });

/** Undefined where it is no entry of a format known here. */
export function unpackEntry(format: number, body: Uint8Array): string | undefined {
  if (format !== entryFormat) return undefined;
  try {
    return zstdDecompressSync(body, { dictionary, maxOutputLength: longest_bytes }).toString('utf8');
  } catch {
    return undefined;
  }
}

/** So many rows go into one block: it is unpacked whole. */
const rowsInBlock = 32_768;

/** The one gauge of a stretch, by the number it has in a block. */
const theGauge = 1;

/** A stretch of readings: blocks as the journal packs them, one after the other, each behind its length and its CRC-32. */
export function packStretch(rows: readonly JournalRow[]): Buffer {
  const parts: Uint8Array[] = [];
  for (let from = 0; from < rows.length; from += rowsInBlock) {
    const { bytes, crc } = packBlock(rows.slice(from, from + rowsInBlock).map(stored));
    const head = Buffer.alloc(8);
    head.writeUInt32LE(bytes.length, 0);
    head.writeUInt32LE(crc, 4);
    parts.push(head, bytes);
  }
  return Buffer.concat(parts);
}

function stored(row: JournalRow): StoredRow {
  const { seq, kind, t, at, note = null } = row;
  const gauge = row.gauge === undefined ? null : theGauge;
  const [value, unit] = row.kind === 'reading' ? [row.value, row.unit] : [null, null];
  return [seq, gauge, kind, t, Math.round(at), value, unit, 'raw' in row ? row.raw : null, note];
}

/** The lines of a stretch as certificates and bundles have them; undefined where it is damaged or of a format not known here. */
export function unpackStretch(format: number, body: Buffer, gauge: string): readonly string[] | undefined {
  if (format !== stretchFormat) return undefined;
  const names = new Map([[theGauge, gauge]]);
  const lines: string[] = [];
  for (let at = 0; at < body.length;) {
    if (at + 8 > body.length) return undefined;
    const end = at + 8 + body.readUInt32LE(at);
    if (end > body.length) return undefined;
    const block = { format: 1, crc: body.readUInt32LE(at + 4), bytes: body.subarray(at + 8, end) };
    const rows = unpackBlock(block, { bytes: true });
    if (rows === undefined) return undefined;
    for (const row of rows) lines.push(csvLine(rowFrom(row, names)));
    at = end;
  }
  return lines;
}
