import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packBlock, unpackBlock } from '../../../../src/main/journal/blocks/block.ts';
import type { StoredRow } from '../../../../src/main/journal/storedRow.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const all = { bytes: true } as const;
const plain = (rows: readonly StoredRow[] | undefined) =>
  rows?.map(([seq, gauge, kind, t, at, value, unit, raw, note]) => [
    seq,
    gauge,
    kind,
    t,
    at,
    value,
    unit,
    raw === null ? null : Buffer.from(raw).toString('hex'),
    note,
  ]);

const text = fc.string({ unit: 'binary', maxLength: 12 });
const number = fc.oneof(
  fc.double({ noNaN: true }),
  fc.integer({ min: -(10 ** 6), max: 10 ** 6 }).map((whole) => whole / 1000),
  fc.constantFrom(0, -0, 1e-9, 5e-324, Number.MAX_VALUE, 2 ** 53, -(2 ** 51)),
);
/** Whatever a row may hold, and more than a bench writes. */
const rowsSchema = fc
  .array(
    fc.tuple(
      fc.integer({ min: 1, max: 1000 }),
      fc.constantFrom(null, 1, 2, 7),
      fc.constantFrom('reading', 'unreadable', 'pedal', 'gone'),
      number,
      fc.integer({ min: -(2 ** 51), max: 2 ** 51 }),
      fc.option(number),
      fc.option(fc.constantFrom('mm', '[in_i]', '')),
      fc.option(fc.uint8Array({ maxLength: 12 })),
      fc.option(text),
    ),
    { minLength: 1, maxLength: 60 },
  )
  .map((drawn) => {
    let seq = 0;
    return drawn.map(([step, ...rest]): StoredRow => {
      seq += step;
      return [seq, ...rest];
    });
  });

/** What gauges send: four at 100/s, on a clock of nanoseconds, with a step now and then. */
function sent(rows: number): readonly StoredRow[] {
  const chance = seeded(3);
  return Array.from({ length: rows }, (_, index): StoredRow => {
    const gauge = 1 + (index % 4);
    const value = Math.round(200 + 80 * Math.sin(index / 160) + 2 * chance.next()) / 1000;
    const t = 4711.123456789 + index / 400 + Math.round(chance.next() * 3e6) / 1e9;
    const raw = Buffer.from(`${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(3).padStart(7, '0')} mm\r\n`);
    return [
      index + 1,
      gauge,
      'reading',
      Number(t.toFixed(9)),
      1_767_600_000_000 + Math.round(t * 1000),
      value,
      'mm',
      raw,
      null,
    ];
  });
}

describe('a block of journal rows', () => {
  it('gives back what was packed, byte for byte (property)', () => {
    fc.assert(
      fc.property(rowsSchema, (rows) => {
        expect(plain(unpackBlock(packBlock(rows), all))).toStrictEqual(plain(rows));
      }),
    );
  });

  it('gives back the rows of one gauge with those of none, with and without their bytes (property)', () => {
    fc.assert(
      fc.property(rowsSchema, (rows) => {
        const block = packBlock(rows);
        const mine = rows.filter(([, gauge]) => gauge === 2 || gauge === null);
        expect(plain(unpackBlock(block, { gauge: 2, bytes: true }))).toStrictEqual(plain(mine));
        const bare = mine.map(([seq, gauge, kind, t, at, value, unit, raw, note]): StoredRow => [
          seq,
          gauge,
          kind,
          t,
          at,
          value,
          unit,
          kind === 'unreadable' ? raw : null,
          note,
        ]);
        expect(plain(unpackBlock(block, { gauge: 2, bytes: false }))).toStrictEqual(plain(bare));
      }),
    );
  });

  it('takes less than 12 bytes a reading of four gauges, raw bytes and nanoseconds included', () => {
    const rows = sent(2048);
    const block = packBlock(rows);
    expect(plain(unpackBlock(block, all))).toStrictEqual(plain(rows));
    expect(block.bytes.length / rows.length).toBeLessThan(12);
  });

  it('is known as damaged whichever byte was changed', () => {
    const block = packBlock(sent(40));
    for (let at = 0; at < block.bytes.length; at += 1) {
      const bytes = Uint8Array.from(block.bytes);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      expect(unpackBlock({ ...block, bytes }, all)).toBeUndefined();
    }
    expect(unpackBlock({ ...block, format: 2 }, all)).toBeUndefined();
  });
});
