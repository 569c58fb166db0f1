import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { csvLine } from '../../../src/main/journal/csv.ts';
import type { Entry } from '../../../src/main/journal/entry.ts';
import { openJournal } from '../../../src/main/journal/journal.ts';
import { settleStep } from '../../../src/main/journal/settle.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { openStretches } from '../../../src/main/store/stretches.ts';
import { valueOf } from '../../support/bench/open.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { journalForTest } from '../../support/openJournal.ts';
import { settleAll } from '../../support/settleAll.ts';

const fresh = 2e12;

/** What two gauges send and a foot presses, lines that cannot be read and odd numbers among it. */
function entry(n: number): Entry {
  const t = n / 100 + ((n * 7919) % 1000) / 1e9;
  const at = fresh + n * 10;
  if (n % 97 === 0) return { kind: 'pedal', t, at, note: 'next' };
  if (n % 89 === 0) return { kind: 'unreadable', gauge: 'a', t, at, raw: Uint8Array.of(0xff, n % 256), note: 'noise' };
  const value = n % 83 === 0 ? -0 : n % 79 === 0 ? Math.PI * n : Math.round(Math.sin(n / 50) * 300) / 1000;
  const gauge = n % 3 === 0 ? 'b' : 'a';
  return {
    kind: 'reading',
    gauge,
    t,
    at,
    value,
    unit: 'mm',
    raw: Buffer.from(`${value}\r`),
    ...(n % 71 === 0 ? { note: 'low-battery' } : {}),
  };
}

function filled(rows = 5000) {
  const opened = journalForTest();
  const from = opened.journal.last() + 1;
  for (let n = 1; n <= rows; n += 1) opened.journal.append(entry(n));
  valueOf(opened.journal.flush());
  return { ...opened, from, to: opened.journal.last() };
}

type Filled = ReturnType<typeof filled>;

/** Everything a reader may ask of a stretch, as text. */
const told = (
  { database: { sql }, journal }: Pick<Filled, 'database' | 'journal'>,
  from: number,
  to: number,
): unknown => ({
  every: [...journal.stretch(undefined, from, to)].map(csvLine),
  one: [...journal.stretch('b', from, to)].map(csvLine),
  bare: [...journal.stretch('a', from, to, { bytes: false })].map(csvLine),
  hash: createHash('sha256')
    .update(openStretches({ sql }, 'own').lines({ bench: 'own', gauge: 'a', from, to }).join('\n'))
    .digest('hex'),
});

const count = ({ database }: Filled, table: string): number =>
  Number(database.sql.prepare(`SELECT count(*) FROM ${table}`).pluck().get());

describe('kept readings', () => {
  it('are packed, and read as they were: every stretch, its hash, its bytes', () => {
    const at = filled();
    const [from, to] = [at.from + 700, at.from + 4200];
    valueOf(at.journal.keep(from, to, 'measurement'));
    const before = told(at, at.from, at.to);
    const parts = [told(at, from - 3, from + 3), told(at, from + 1022, from + 1026), told(at, to - 1, to + 1)];
    expect(settleAll(at.database, 0)).toMatchObject({ removed: 0, packed: to - from + 1 });
    expect(count(at, 'journal')).toBe(5001 - (to - from + 1));
    expect(count(at, 'journal_block')).toBe(4);
    expect(told(at, at.from, at.to)).toEqual(before);
    expect([told(at, from - 3, from + 3), told(at, from + 1022, from + 1026), told(at, to - 1, to + 1)]).toEqual(parts);
  });

  it('that overlap what is packed already are packed beside it', () => {
    const at = filled(3000);
    const before = told(at, at.from + 900, at.from + 1500);
    valueOf(at.journal.keep(at.from + 1000, at.from + 1200));
    settleAll(at.database, 0);
    valueOf(at.journal.keep(at.from + 900, at.from + 1500));
    valueOf(at.journal.keep(at.from + 900, at.from + 1500, 'certificate'));
    settleAll(at.database, 0);
    expect(count(at, 'journal_block')).toBe(3);
    // Old ones go between the blocks that are there.
    settleAll(at.database, 1e13);
    expect(count(at, 'journal')).toBe(0);
    expect(told(at, at.from + 900, at.from + 1500)).toEqual(before);
  });

  it('wait until they are safe on the disk', () => {
    const at = filled(10);
    valueOf(at.journal.keep(at.from, at.to));
    expect(settleAll(at.database, 0, at.to - 1).packed).toBe(0);
    expect(settleAll(at.database, 0, at.to).packed).toBe(10);
  });

  it('are in one place or the other wherever packing is cut off', () => {
    const folder = temporaryFolder();
    const at = { ...journalForTest(folder) };
    const from = at.journal.last() + 1;
    for (let n = 1; n <= 3000; n += 1) at.journal.append(entry(n));
    valueOf(at.journal.flush());
    const to = at.journal.last();
    valueOf(at.journal.keep(from, to));
    const before = told(at, from, to);
    for (let step = 0; step < 4; step += 1) {
      settleStep(at.database, { safe: to, beforeAt_ms: 0 });
      const reader = valueOf(openDatabase(folder, systemClock, { as: 'reader' }));
      const lines = openStretches(reader, 'own').lines({ bench: 'own', gauge: 'a', from, to });
      expect(createHash('sha256').update(lines.join('\n')).digest('hex')).toBe((before as { hash: string }).hash);
      reader.close();
    }
    // A step that fails half way changes nothing.
    at.database.sql.exec("CREATE TRIGGER refuses BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'no'); END");
    valueOf(at.journal.keep(1, 1));
    expect(() => settleStep(at.database, { safe: to, beforeAt_ms: 0 })).toThrow('no');
    expect(told(at, from, to)).toEqual(before);
  });

  it('whose block is damaged are told in a row, and everything else is read', () => {
    const at = filled(2000);
    valueOf(at.journal.keep(at.from + 100, at.from + 199));
    settleAll(at.database, 0);
    at.database.sql.exec('UPDATE journal_block SET bytes = zeroblob(length(bytes))');
    const rows = [...at.journal.stretch(undefined, at.from, at.to)];
    expect(rows.filter(({ kind }) => kind === 'lost')).toMatchObject([{ note: '100 rows in a damaged block' }]);
    expect(rows).toHaveLength(1901);
  });
});

describe('the numbers of rows', () => {
  it('go on behind what is packed, and nothing counts as lost', () => {
    const folder = temporaryFolder();
    const first = valueOf(openDatabase(folder, systemClock));
    const journal = openJournal(first);
    for (let n = 1; n <= 50; n += 1) journal.append(entry(n));
    valueOf(journal.flush());
    const last = journal.last();
    valueOf(journal.keep(1, last));
    expect(settleAll(first, 0).packed).toBe(last);
    journal.close();
    first.close();
    const second = valueOf(openDatabase(folder, systemClock));
    expect(second.witness.lost).toBeUndefined();
    const again = openJournal(second);
    expect(again.append(entry(1))).toBe(last + 2);
    again.close();
    second.close();
  });
});
