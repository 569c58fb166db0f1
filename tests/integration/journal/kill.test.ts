import { spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { temporaryFolder } from '../../support/folder.ts';
import { journalForTest } from '../../support/openJournal.ts';

/** Runs a program that journals, kills it in the middle of it, and gives the last row number it called safe. */
async function runUntilKilled(name: string, folder: string, after_ms: number): Promise<number> {
  const program = path.join(import.meta.dirname, name);
  const child = spawn(process.execPath, [program, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  child.stdout.on('data', (bytes: Buffer) => (said += bytes.toString()));
  await once(child.stdout, 'data');
  await pause(after_ms);
  child.kill('SIGKILL');
  await once(child, 'close');
  return Number(said.slice(0, said.lastIndexOf('\n')).split('\n').at(-1)?.split(' ')[0]);
}

it.each([
  ['by whoever needs them', 'writerToBeKilled.ts'],
  ['by its thread', 'writerInThread.ts'],
])('loses no row called safe when the process is killed while they are written %s', async (_, writer) => {
  const folder = temporaryFolder();
  for (const after_ms of [20, 45, 70, 95, 120, 150, 300]) {
    const safe = await runUntilKilled(writer, folder, after_ms);
    const { journal, database } = journalForTest(folder);
    expect(safe).toBeGreaterThan(0);
    expect(journal.durable()).toBeGreaterThanOrEqual(safe);
    const [count, newest] = database.sql.prepare('SELECT count(*), max(seq) FROM journal').raw().get() as [
      number,
      number,
    ];
    // No hole either: every number up to the newest is there.
    expect(count).toBe(newest);
    expect(database.sql.pragma('integrity_check', { simple: true })).toBe('ok');
    journal.close();
    database.close();
  }
});

it('gives back every row it called safe, once, when the process is killed while rows are packed', async () => {
  const folder = temporaryFolder();
  let inBlocks = 0;
  for (const after_ms of [5, 13, 22, 34, 48, 61, 90, 120]) {
    const safe = await runUntilKilled('packerToBeKilled.ts', folder, after_ms);
    const { journal, database } = journalForTest(folder);
    expect(safe).toBeGreaterThan(0);
    expect(journal.durable()).toBeGreaterThanOrEqual(safe);
    journal.flush();
    const rows = [...journal.stretch('a', 1, journal.durable())];
    // Every number up to the newest, each once and in order; the beginning of a run is a row too.
    expect(rows.every(({ seq }, index) => seq === index + 1)).toBe(true);
    expect(rows).toHaveLength(journal.durable());
    const bent = rows.filter(
      (row) =>
        row.kind !== 'opened' &&
        !(row.kind === 'reading' && row.value === row.seq && Buffer.from(row.raw).toString() === `${row.seq} mm\r\n`),
    );
    expect(bent).toEqual([]);
    const again = database.sql
      .prepare('SELECT count(*) FROM journal JOIN journal_block ON seq BETWEEN from_seq AND to_seq')
      .pluck()
      .get();
    expect(again).toBe(0);
    inBlocks = Number(database.sql.prepare('SELECT coalesce(sum(rows), 0) FROM journal_block').pluck().get());
    expect(database.sql.pragma('integrity_check', { simple: true })).toBe('ok');
    journal.close();
    database.close();
  }
  expect(inBlocks).toBeGreaterThanOrEqual(700);
});
