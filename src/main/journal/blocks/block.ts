import { constants, crc32, zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { z } from 'zod';
import type { StoredRow } from '../storedRow.ts';
import { type LaneHead, laneHeadSchema, packLane, unpackLane } from './lane.ts';

/** How blocks are written now; one that is written otherwise later gets another number. */
const blockFormat = 1;

/** Rows of the journal from one number to another, packed: all of them, of every gauge, as they were. */
export interface Block {
  readonly from_seq: number;
  readonly to_seq: number;
  readonly rows: number;
  readonly format: number;
  /** CRC-32 of the bytes. */
  readonly crc: number;
  readonly bytes: Uint8Array;
}

const headSchema = z.array(laneHeadSchema);
const most_bytes = 64 * 2 ** 20;
const hard = { params: { [constants.ZSTD_c_compressionLevel]: 6 } };

/**
 * Packs rows, in rising order. The rows of each gauge stand column by column, numbers as differences, and the whole is
 * compressed (Zstandard, RFC 8878): four bytes of length, a head in JSON, the columns.
 * @throws where there are no rows
 */
export function packBlock(rows: readonly StoredRow[]): Block {
  const [first, last] = [rows[0], rows.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError('a block without rows');
  const byGauge = Map.groupBy(rows, ([, gauge]) => gauge);
  const lanes = [...byGauge].map(([gauge, own]) => packLane(gauge, own));
  const head = Buffer.from(JSON.stringify(lanes.map((lane) => lane.head)));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(head.length);
  const bytes = zstdCompressSync(Buffer.concat([length, head, ...lanes.flatMap(({ parts }) => parts)]), hard);
  return { from_seq: first[0], to_seq: last[0], rows: rows.length, format: blockFormat, crc: crc32(bytes), bytes };
}

/** What of a block is wanted. */
interface Wanted {
  /** Number of the gauge whose rows are wanted, with those of no gauge; without it those of every gauge. */
  readonly gauge?: number | undefined;
  /** Whether the bytes of readings are wanted; those of unreadable lines come always. */
  readonly bytes: boolean;
}

/** The rows of a block, in rising order; undefined where the block is damaged or of a later format. */
export function unpackBlock(block: Pick<Block, 'format' | 'crc' | 'bytes'>, wanted: Wanted): StoredRow[] | undefined {
  if (block.format !== blockFormat || crc32(block.bytes) !== block.crc) return undefined;
  try {
    return rowsIn(zstdDecompressSync(block.bytes, { maxOutputLength: most_bytes }), wanted);
  } catch {
    // Bytes that agree with their check and cannot be read all the same were not written by this program.
    return undefined;
  }
}

function rowsIn(plain: Buffer, { gauge, bytes }: Wanted): StoredRow[] {
  const headEnd = 4 + plain.readUInt32LE(0);
  const heads: LaneHead[] = headSchema.parse(JSON.parse(plain.subarray(4, headEnd).toString('utf8')));
  const rows: StoredRow[] = [];
  let from = headEnd;
  for (const head of heads) {
    const to = from + head.bytes.reduce((sum, each) => sum + each, 0);
    const isWanted = gauge === undefined || head.gauge === null || head.gauge === gauge;
    if (isWanted) rows.push(...unpackLane(head, plain.subarray(from, to), bytes));
    from = to;
  }
  return heads.length === 1 ? rows : rows.toSorted(([a], [b]) => a - b);
}
