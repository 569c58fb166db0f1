import { createHash } from 'node:crypto';
import { constants, zstdCompressSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packEntry, packStretch, unpackEntry, unpackStretch } from '../../../../src/main/archive/hold.ts';
import { sample } from '../../../../src/main/archive/sample.ts';
import { csvLine } from '../../../../src/main/journal/csv.ts';
import type { JournalRow } from '../../../../src/main/journal/entry.ts';
import { type StoredRow, storedFrom } from '../../../../src/main/journal/storedRow.ts';
import { rockedRows } from '../../../support/records/issued.ts';

describe('an entry packed for the archive', () => {
  it('comes back letter by letter', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (json) => {
        expect(unpackEntry(1, packEntry(json))).toBe(json);
      }),
    );
  });

  it('is packed against the sample of format 1, which is never changed', () => {
    // Whoever changes the sample makes a format 2 of it: nothing that was packed before could be read.
    expect(createHash('sha256').update(sample).digest('hex')).toBe(
      '118a3d7e55f6ea62101e799ec267e7c1dbb17abbcbffcb2280eab717e48b617e',
    );
  });

  it('is read however hard it was packed: the format is the sample, not the level', () => {
    const json = `{"id":"e1","by":"Technician A","text":"${'hums under pull '.repeat(3000)}"}`;
    for (const level of [1, 9, 19]) {
      const params = { [constants.ZSTD_c_compressionLevel]: level };
      expect(unpackEntry(1, zstdCompressSync(json, { dictionary: Buffer.from(sample), params }))).toBe(json);
    }
    expect(unpackEntry(1, packEntry(json))).toBe(json);
  });

  it('is not read where it is damaged or of a later format', () => {
    const body = packEntry('{"id":"e1"}');
    expect(unpackEntry(2, body)).toBeUndefined();
    expect(unpackEntry(1, body.subarray(0, -3))).toBeUndefined();
  });
});

/** As they lie in a journal in which their gauge has another number than in the archive. */
const stored = (rows: readonly JournalRow[]): StoredRow[] => rows.map((row) => storedFrom(row, 7));

const rowsOf = (times: number): JournalRow[] =>
  Array.from({ length: times }, (_, n) => n).flatMap((n) =>
    rockedRows.map((row) => ({ ...row, seq: row.seq + n * rockedRows.length })),
  );

describe('a stretch packed for the archive', () => {
  it.each([1, 90])('gives back the very lines that certificates hash, of %s sessions', (times) => {
    const rows = rowsOf(times);
    const lines = unpackStretch(1, packStretch(stored(rows)));
    expect(lines).toEqual(rows.map(csvLine));
  });

  it('keeps every sort of row, with minus zero and bytes as they came', () => {
    const rows: JournalRow[] = [
      { seq: 1, kind: 'opened', t: 0, at: 5 },
      {
        seq: 2,
        kind: 'reading',
        gauge: 'g1',
        t: 0.1,
        at: 105,
        value: -0,
        unit: 'mm',
        raw: Buffer.from([0, 255, 10]),
        note: 'low-battery',
      },
      { seq: 3, kind: 'unreadable', gauge: 'g1', t: 0.2, at: 205, raw: Buffer.alloc(0), note: 'noise' },
      { seq: 5, kind: 'gone', gauge: 'g1', t: 0.3, at: 305 },
      { seq: 9, kind: 'pedal', t: 0.4, at: 405, note: 'next' },
    ];
    expect(unpackStretch(1, packStretch(stored(rows)))).toEqual(rows.map(csvLine));
  });

  it('is not read where a byte is another, or the end is missing', () => {
    const body = packStretch(stored(rowsOf(1)));
    fc.assert(
      fc.property(fc.nat(body.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const bent = Buffer.from(body);
        bent[at] = ((bent[at] ?? 0) + by) % 256;
        expect(unpackStretch(1, bent)).toBeUndefined();
      }),
      { numRuns: 60 },
    );
    expect(unpackStretch(1, body.subarray(0, -1))).toBeUndefined();
    expect(unpackStretch(2, body)).toBeUndefined();
  });
});
