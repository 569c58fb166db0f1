import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/main/journal/entry.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { journalForTest } from '../../support/openJournal.ts';
import { settleAll } from '../../support/settleAll.ts';

const reading = (gauge: string, t: number, value: number, unit = 'mm'): Entry => ({
  kind: 'reading',
  gauge,
  t,
  at: 1_000_000 + t * 1000,
  value,
  unit,
  raw: new TextEncoder().encode(`${value}`),
});

describe('the journal', () => {
  it('gives row numbers at once and in order, and reads back what was written', () => {
    const { journal } = journalForTest();
    const first = journal.append(reading('a', 1, 0.1));
    const second = journal.append(reading('b', 1.001, 2.5, 'N.m'));
    const third = journal.append({
      kind: 'unreadable',
      gauge: 'a',
      t: 1.1,
      at: 5,
      raw: Uint8Array.of(7, 8),
      note: 'noise',
    });
    const fourth = journal.append({ kind: 'pedal', t: 1.2, at: 6, note: 'next' });
    expect([second, third, fourth]).toEqual([first + 1, first + 2, first + 3]);
    const rows = [...journal.stretch('a', first, fourth)];
    expect(rows.map((row) => [row.seq, row.kind])).toEqual([
      [first, 'reading'],
      [third, 'unreadable'],
      [fourth, 'pedal'],
    ]);
    expect(rows[0]).toMatchObject({ gauge: 'a', t: 1, value: 0.1, unit: 'mm' });
    expect(rows[1]).toMatchObject({ note: 'noise', raw: Buffer.from([7, 8]) });
    expect([...journal.stretch(undefined, first, fourth)]).toHaveLength(4);
    const light = [...journal.stretch('a', first, fourth, { bytes: false })];
    expect(light[0]).toMatchObject({ value: 0.1, unit: 'mm', raw: new Uint8Array(0) });
    expect(light[1]).toMatchObject({ kind: 'unreadable', raw: Buffer.from([7, 8]) });
  });

  it('writes by itself, without being asked', async () => {
    const { journal, database } = journalForTest();
    journal.append(reading('a', 1, 0.1));
    expect(journal.durable()).toBe(0);
    await pause(60);
    expect(journal.durable()).toBe(journal.last());
    expect(database.sql.prepare('SELECT count(*) FROM journal').pluck().get()).toBe(2);
  });

  it('goes on counting in the next run, and says that a run began', () => {
    const folder = temporaryFolder();
    const one = journalForTest(folder);
    const last = one.journal.append(reading('a', 1, 0.1));
    one.journal.close();
    one.database.close();
    const two = journalForTest(folder);
    const next = two.journal.append(reading('a', 0.2, 0.3));
    expect([...two.journal.stretch(undefined, last, next)].map((row) => row.kind)).toEqual([
      'reading',
      'opened',
      'reading',
    ]);
    expect(next).toBe(last + 2);
  });

  it('reads more than a page while writing goes on', () => {
    const { journal } = journalForTest();
    const first = journal.last() + 1;
    for (let i = 0; i < 10_000; i += 1) journal.append(reading('a', i / 100, i));
    let expected = 0;
    for (const row of journal.stretch('a', first, first + 9_999)) {
      expect(row).toMatchObject({ value: expected });
      expected += 1;
      if (expected % 1000 === 0) {
        journal.append(reading('a', 200, 0));
        expect(journal.flush().ok).toBe(true);
      }
    }
    expect(expected).toBe(10_000);
  });

  it('holds what a full disk refuses, says so in one sentence, and writes it when there is room', async () => {
    const told: (string | undefined)[] = [];
    const { journal, database } = journalForTest(undefined, { onProblem: (problem) => told.push(problem?.kind) });
    journal.flush();
    // A real full disk is not to be had in a test: SQLite's own page limit takes the same way through its code.
    const pages = Number(database.sql.pragma('page_count', { simple: true }));
    database.sql.pragma(`max_page_count = ${pages}`);
    const from = journal.last() + 1;
    for (let i = 0; i < 500; i += 1) journal.append(reading('a', i / 100, i));
    const refused = journal.flush();
    expect(refused.ok ? 'written' : refused.problem).toMatchObject({
      kind: 'disk-full',
      sentence: expect.stringContaining('full'),
    });
    expect(journal.durable()).toBe(from - 1);
    expect([...journal.stretch('a', from, journal.last())]).toHaveLength(0);
    database.sql.pragma('max_page_count = 1000000');
    await pause(700);
    expect([...journal.stretch('a', from, from + 499)]).toHaveLength(500);
    expect(told.at(0)).toBe('disk-full');
    expect(told.at(-1)).toBeUndefined();
  });

  it('says how many rows it could not even hold, in the place where they are missing, and numbers go on', async () => {
    const { journal, database } = journalForTest();
    journal.flush();
    const pages = Number(database.sql.pragma('page_count', { simple: true }));
    database.sql.pragma(`max_page_count = ${pages}`);
    const from = journal.last() + 1;
    const held = 250_000;
    let refused = 0;
    for (let i = 0; i < held + 300; i += 1) {
      const before = journal.last();
      if (journal.append(reading('a', i / 400, i)) === before) refused += 1;
    }
    expect(journal.flush().ok).toBe(false);
    // The first that found no room left its number to the notice of all that are missing.
    expect(refused).toBe(299);
    expect(journal.last()).toBe(from + held);
    database.sql.pragma('max_page_count = 10000000');
    expect(journal.flush().ok).toBe(true);
    expect(journal.durable()).toBe(from + held);
    const last = [...journal.stretch(undefined, from + held - 1, from + held)];
    expect(last.map(({ kind }) => kind)).toEqual(['reading', 'lost']);
    expect(last[1]).toMatchObject({ note: expect.stringMatching(/^300 rows: .*full/u) as string });
    expect(journal.append(reading('a', 2000, 1))).toBe(from + held + 1);
  });

  it('says that it may only read, when that is so', () => {
    const { journal, database } = journalForTest();
    journal.flush();
    // Injected at the seam: as root a file's permissions stop nobody.
    database.sql.pragma('query_only = 1');
    journal.append(reading('a', 1, 1));
    const refused = journal.flush();
    expect(refused.ok ? 'written' : refused.problem.kind).toBe('database-read-only');
    database.sql.pragma('query_only = 0');
    expect(journal.flush().ok).toBe(true);
  });
});

describe('thinning', () => {
  const held = 0.25;
  const fill = (): ReturnType<typeof journalForTest> & { readonly from: number } => {
    const opened = journalForTest();
    const from = opened.journal.last() + 1;
    // Held still for a minute, moved for a second, held still for a minute.
    for (let i = 0; i < 6100; i += 1) {
      const moving = i >= 3000 && i < 3100;
      opened.journal.append(reading('a', i / 50, moving ? held + i / 1000 : held));
    }
    opened.journal.flush();
    return { ...opened, from };
  };

  it('keeps every change and a heartbeat, and says what is gone and where', () => {
    const { journal, database, from } = fill();
    const { removed } = settleAll(database, 1e13);
    const rows = [...journal.stretch('a', from, journal.last())];
    const readings = rows.filter((row) => row.kind === 'reading');
    expect(removed).toBe(6100 - readings.length);
    expect(removed).toBeGreaterThan(5900);
    expect(readings.filter((row) => row.value !== held)).toHaveLength(100);
    const gaps = readings.slice(1).map((row, i) => row.t - (readings[i]?.t ?? 0));
    expect(Math.max(...gaps)).toBeLessThanOrEqual(10.1);
    // A piece at a time, each with its notice where its gap begins.
    const notices = rows.flatMap((row) => (row.kind === 'thinned' ? [Number.parseInt(row.note ?? '', 10)] : []));
    expect(notices.length).toBeGreaterThan(4);
    expect(notices.reduce((sum, each) => sum + each, 0)).toBe(removed);
    expect(settleAll(database, 1e13)).toMatchObject({ removed: 0, packed: 0 });
  });

  it('leaves a kept stretch whole, and what is not old enough', () => {
    const { journal, database, from } = fill();
    journal.keep(from + 500, from + 1500, 'a measurement');
    const old = 1_000_000 + 60_000;
    expect(settleAll(database, old).removed).toBeGreaterThan(1400);
    const rows = [...journal.stretch('a', from + 500, from + 1500)];
    expect(rows).toHaveLength(1001);
    expect(rows.every((row) => row.kind === 'reading')).toBe(true);
    expect([...journal.stretch('a', from + 3000, from + 6099)]).toHaveLength(3100);
  });
});
