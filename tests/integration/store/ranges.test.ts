import Sqlite from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { readAround } from '../../../src/main/store/salvage/ranges.ts';

it('reading around damage ends where a bent page gives rows of other numbers than were asked for', () => {
  const sql = new Sqlite(':memory:');
  onTestFinished(() => void sql.close());
  sql.exec(`
    CREATE TABLE journal (seq INTEGER PRIMARY KEY);
    WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 10000) INSERT INTO journal SELECT i FROM n`);
  // A zeroed page was met for which SQLite gave full pages of rows with the number 0, again and again.
  const bent = 'iif(seq >= 50, 0, seq)';
  const taken: number[] = [];
  let lost = 0;
  const take = ([seq]: readonly unknown[]): void => void taken.push(Number(seq));
  readAround(sql, 'journal', bent, { from: 1, to: 10_000 }, { take, lose: (rows) => void (lost += rows) });
  expect(taken).toEqual(Array.from({ length: 49 }, (_, n) => n + 1));
  expect(lost).toBe(10_000 - 49);
});
