import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { csvLine } from '../journal/csv.ts';
import { readPages } from '../journal/readRows.ts';
import type { Database } from './database.ts';

/** A stretch of some bench's journal, both ends included. */
export interface StretchNamed {
  readonly bench: string;
  readonly gauge: string;
  readonly from: number;
  readonly to: number;
}

/** A stretch as it is kept. */
interface PackedStretch extends StretchNamed {
  readonly rows: number;
  readonly sha256: string;
  readonly bytes: Buffer;
}

/** Readings of this bench and of those whose builds were taken in. */
interface Stretches {
  /** The rows as lines of CSV, in order; none where the journal has them no more or never had them. */
  readonly lines: (stretch: StretchNamed) => readonly string[];
  /** Packs a stretch of another bench, to be kept; undefined where it is here already. */
  pack(stretch: StretchNamed, lines: readonly string[], sha256: string): PackedStretch | undefined;
  /** Keeps one; call inside `database.write`. True where it was not there before. */
  keep(packed: PackedStretch): boolean;
}

export function openStretches(database: Pick<Database, 'sql'>, own: string): Stretches {
  const { sql } = database;
  const find = sql
    .prepare<[string, string, number, number], Buffer>(
      'SELECT lines FROM foreign_stretch WHERE bench = ? AND gauge = ? AND from_seq = ? AND to_seq = ?',
    )
    .pluck();
  const foreign = ({ bench, gauge, from, to }: StretchNamed): Buffer | undefined => find.get(bench, gauge, from, to);
  return {
    lines(stretch) {
      if (stretch.bench === own)
        return Array.from(readPages(sql, stretch.gauge, stretch.from, stretch.to, true), csvLine);
      const packed = foreign(stretch);
      return packed === undefined ? [] : inflateRawSync(packed).toString('utf8').split('\n').slice(0, -1);
    },
    pack(stretch, lines, sha256) {
      if (stretch.bench === own || foreign(stretch) !== undefined) return undefined;
      const bytes = deflateRawSync(Buffer.from(lines.map((line) => `${line}\n`).join('')));
      return { ...stretch, rows: lines.length, sha256, bytes };
    },
    keep({ bench, gauge, from, to, rows, sha256, bytes }) {
      const { changes } = sql
        .prepare(
          'INSERT INTO foreign_stretch (bench, gauge, from_seq, to_seq, rows, sha256, lines) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING',
        )
        .run(bench, gauge, from, to, rows, sha256, bytes);
      return changes > 0;
    },
  };
}
