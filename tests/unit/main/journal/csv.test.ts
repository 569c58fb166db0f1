import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvLine, rowsFromCsv } from '../../../../src/main/journal/csv.ts';
import type { JournalRow } from '../../../../src/main/journal/entry.ts';

const base = fc.record({
  t: fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }).map((t) => t + 0),
  at: fc.integer({ min: 0, max: 4e12 }),
});
const words = fc.string({ unit: 'binary', minLength: 1, maxLength: 20 });
const bytes = fc.uint8Array({ maxLength: 40 });
/** Nothing and minus nothing are written alike. */
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);

const anyRow = fc.oneof(
  fc
    .tuple(base, number, words, bytes, fc.option(words, { nil: undefined }))
    .map(([when, value, unit, raw, note]): JournalRow => ({
      ...when,
      seq: 0,
      kind: 'reading',
      gauge: 'g1',
      value,
      unit,
      raw,
      ...(note === undefined ? {} : { note }),
    })),
  fc
    .tuple(base, bytes, words)
    .map(([when, raw, note]): JournalRow => ({ ...when, seq: 0, kind: 'unreadable', gauge: 'g1', raw, note })),
  fc
    .tuple(base, fc.constantFrom('pedal' as const, 'clock' as const), words)
    .map(([when, kind, note]): JournalRow => ({ ...when, seq: 0, kind, note })),
  base.map((when): JournalRow => ({ ...when, seq: 0, kind: 'gone', gauge: 'g1' })),
);
const anyRows = fc
  .array(anyRow, { minLength: 1, maxLength: 8 })
  .map((rows) => rows.map((row, index) => ({ ...row, seq: 3 + 2 * index })));

const plain = (rows: readonly JournalRow[]) =>
  rows.map((row) => ({ ...row, ...('raw' in row ? { raw: Buffer.from(row.raw).toString('hex') } : {}) }));

describe('rows of the journal as CSV', () => {
  it('come back as they went, whatever bytes and words are in them', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const read = rowsFromCsv(rows.map(csvLine), 'g1');
        expect(read.ok && plain(read.value)).toEqual(plain(rows));
      }),
      { numRuns: 300, seed: 20_261_130 },
    );
  });

  it('have as many fields in every line, and none that begins like a formula but a number', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        for (const row of rows) {
          const fields = csvLine(row).split(',');
          expect(fields).toHaveLength(9);
          for (const field of fields) expect(/^[=+@\t\r-]/u.test(field) && !/^-[\d.e+-]+$/u.test(field)).toBe(false);
          expect(csvLine(row)).not.toMatch(/[\r\n"]/u);
        }
      }),
      { numRuns: 300, seed: 20_261_131 },
    );
  });

  it('are refused where a line is none, or goes back', () => {
    const line = csvLine({
      seq: 5,
      t: 1,
      at: 2,
      kind: 'reading',
      gauge: 'g1',
      value: 0.1,
      unit: 'mm',
      raw: Buffer.from('0.1'),
    });
    expect(line).toBe('5,1,2,gauge,reading,0.1,mm,<0.1>,');
    expect(rowsFromCsv([line, line], 'g1')).toMatchObject({ ok: false, problem: { field: 'line 2' } });
    for (const wrong of [
      '',
      line.replace('0.1', 'x'),
      line.replace('gauge', 'none'),
      `${line},`,
      line.replace('<0.1>', '<0.1'),
    ])
      expect(rowsFromCsv([wrong], 'g1').ok).toBe(false);
  });
});
