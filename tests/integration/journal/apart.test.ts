import { setTimeout as pause } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, vi } from 'vitest';
import { type Answer, rowsApart } from '../../../src/main/journal/apart/rowsApart.ts';
import type { Entry, JournalRow } from '../../../src/main/journal/entry.ts';
import { journalForTest, type Opened } from '../../support/openJournal.ts';

const reading = (value: number): Entry => ({
  kind: 'reading',
  gauge: 'a',
  t: value,
  at: 1_000_000 + value,
  value,
  unit: 'mm',
  raw: Buffer.from(`${value}`),
});

/** Holds this thread up, as a long planning would, until it is so or the time is over. */
function busyUntil(isSo: () => boolean, most_ms: number): boolean {
  const until = performance.now() + most_ms;
  while (performance.now() < until) if (isSo()) return true;
  return false;
}

/** Readings until the thread has taken some: it begins with the first of them. */
async function withThread(): Promise<Opened & { readonly count: () => number }> {
  const opened = journalForTest();
  const beside = new Sqlite(opened.database.path, { readonly: true });
  const count = (): number => Number(beside.prepare('SELECT count(*) FROM journal').pluck().get());
  for (let tries = 0, seen = false; !seen; tries += 1) {
    expect(tries, 'the thread never wrote').toBeLessThan(200);
    opened.journal.append(reading(tries));
    await pause(12);
    const before = count();
    seen = busyUntil(() => count() > before, 25);
  }
  return { ...opened, count };
}

describe('rows of a journal that hears readings', () => {
  it('go to the disk while the bench is held up, and are called safe when it hears of it', async () => {
    const { journal, count } = await withThread();
    await vi.waitFor(() => expect(journal.durable()).toBe(journal.last()), { interval: 3 });
    const [rows, last] = [count(), journal.last()];
    journal.append(reading(1000));
    // The timer has sent it, and nothing can have come back.
    await pause(9);
    expect(busyUntil(() => count() === rows + 1, 2000)).toBe(true);
    await vi.waitFor(() => expect(journal.durable()).toBe(last + 1));
  });

  it('are waited for by whoever needs them now, those under way and those behind them', async () => {
    const { journal, database } = await withThread();
    for (let round = 0; round < 40; round += 1) {
      const first = journal.append(reading(round));
      if (round % 2 === 0) await pause(9);
      const second = journal.append(reading(round + 0.5));
      expect(journal.flush().ok).toBe(true);
      expect(journal.durable()).toBe(second);
      expect([...journal.stretch('a', first, second)].map(({ seq }) => seq)).toEqual([first, second]);
    }
    const [rows, newest] = database.sql.prepare('SELECT count(*), max(seq) FROM journal').raw().get() as number[];
    expect(rows).toBe(newest);
  });

  it('and records written at the same time keep each other out of nothing', async () => {
    const { journal, database } = await withThread();
    const before = journal.last();
    for (let round = 0; round < 150; round += 1) {
      for (let i = 0; i < 4; i += 1) journal.append(reading(round + i / 10));
      // It looks first and writes then: as whoever adds to a notebook.
      const written = database.write(() => {
        const rows = Number(database.sql.prepare('SELECT count(*) FROM kept').pluck().get());
        database.sql.prepare("INSERT INTO kept (from_seq, to_seq, because) VALUES (?, ?, 'test')").run(round, rows);
      });
      expect(written.ok).toBe(true);
      await pause(round % 3);
    }
    await vi.waitFor(() => expect(journal.durable()).toBe(before + 600));
    expect([...journal.stretch('a', before + 1, before + 600)]).toHaveLength(600);
    expect(database.sql.prepare('SELECT count(*) FROM kept').pluck().get()).toBe(150);
  });
});

describe('the thread that writes rows', () => {
  it('says why it could not, keeps none of them then, and takes the next', async () => {
    const { journal, database } = journalForTest();
    journal.flush();
    const answers: Answer[] = [];
    const apart = rowsApart({ file: database.path, onAnswer: (answer) => answers.push(answer) });
    apart.begin();
    await vi.waitFor(() => expect(apart.isFree()).toBe(true), { timeout: 5000 });
    const row = (seq: number): JournalRow => ({ ...reading(seq), seq });
    // The second is there already when it comes: nothing else that SQLite refuses can be made by hand here.
    apart.send([row(100), row(101), row(101)]);
    expect(apart.isFree()).toBe(false);
    apart.wait();
    expect(answers).toMatchObject([{ kind: 'refused', code: 'SQLITE_CONSTRAINT_PRIMARYKEY' }]);
    apart.send([row(100), row(101)]);
    await vi.waitFor(() => expect(answers).toHaveLength(2));
    expect(answers[1]).toBeUndefined();
    expect(database.sql.prepare('SELECT seq FROM journal WHERE seq >= 100').pluck().all()).toEqual([100, 101]);
    apart.end();
    expect(apart.isFree()).toBe(false);
  });
});
