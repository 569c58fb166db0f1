import { spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { temporaryFolder } from '../../support/folder.ts';
import { journalForTest } from '../../support/openJournal.ts';

/** Runs the writer, kills it in mid-write, and gives the last row number it called safe. */
async function writeUntilKilled(writer: string, folder: string, after_ms: number): Promise<number> {
  const program = path.join(import.meta.dirname, writer);
  const child = spawn(process.execPath, [program, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  child.stdout.on('data', (bytes: Buffer) => (said += bytes.toString()));
  await once(child.stdout, 'data');
  await pause(after_ms);
  child.kill('SIGKILL');
  await once(child, 'close');
  return Number(said.slice(0, said.lastIndexOf('\n')).split('\n').at(-1));
}

it.each([
  ['by whoever needs them', 'writerToBeKilled.ts'],
  ['by its thread', 'writerInThread.ts'],
])('loses no row called safe when the process is killed while they are written %s', async (_, writer) => {
  const folder = temporaryFolder();
  for (const after_ms of [20, 45, 70, 95, 120, 150, 300]) {
    const safe = await writeUntilKilled(writer, folder, after_ms);
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
