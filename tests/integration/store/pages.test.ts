import { existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { beforeAll, describe, expect, it } from 'vitest';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import type { DatabaseProblem } from '../../../src/main/store/databaseProblem.ts';
import { checkPagesLater, isCheckedFirst } from '../../../src/main/store/pagesChecked.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';

const by = 'A. Tester';
const filler_bytes = 70 * 1024 * 1024;
const mark = 'axlewright.damaged';

/** A folder with one build and blocks that make its database larger than what is looked through before it is opened. */
async function largeShop(): Promise<string> {
  const folder = newFolder();
  const bench = benchInNewFolder(undefined, folder);
  const { id } = valueOf(await bench.answers['builds.start']({ title: 'Large', technician: by }));
  for (let n = 0; n < 60; n += 1) {
    const deed = { kind: 'noted', topic: 'note', text: `Note ${n} ${'.'.repeat(900)}` } as const;
    valueOf(await bench.answers['builds.write']({ build: id, by, deed }));
  }
  await bench.close();
  const sql = new Sqlite(join(folder, databaseName));
  sql.exec(
    `CREATE TABLE filler (bytes BLOB); INSERT INTO filler VALUES (zeroblob(${filler_bytes})); PRAGMA wal_checkpoint(TRUNCATE)`,
  );
  sql.close();
  return folder;
}

/** Noughts over a leaf of the notebooks' table. */
function spoil(folder: string): void {
  const file = join(folder, databaseName);
  const sql = new Sqlite(file, { readonly: true });
  const pages = sql
    .prepare<[], number>("SELECT pageno FROM dbstat WHERE name = 'notebook_entry' AND pagetype = 'leaf'")
    .pluck()
    .all();
  const size = Number(sql.pragma('page_size', { simple: true }));
  sql.close();
  const bytes = readFileSync(file);
  bytes.fill(0, ((pages[2] ?? 0) - 1) * size, (pages[2] ?? 0) * size);
  writeFileSync(file, bytes);
}

const lookedAt = async (folder: string): Promise<DatabaseProblem | undefined> => {
  const found: DatabaseProblem[] = [];
  await new Promise<void>((resolve) => {
    checkPagesLater({
      file: join(folder, databaseName),
      after_ms: 0,
      onProblem: (problem) => found.push(problem),
      onEnd: resolve,
    });
  });
  return found[0];
};

describe('a database too large to be looked through before it is opened', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await largeShop();
  });

  it('is opened at once, and looked through in a thread while the bench is at work', async () => {
    expect(isCheckedFirst(join(folder, databaseName))).toBe(false);
    const bench = benchInNewFolder(undefined, folder);
    expect(await lookedAt(folder)).toBeUndefined();
    expect(existsSync(join(folder, mark))).toBe(false);
    await bench.close();
  });

  it('has its damage marked and told, and what can be read is saved at the next start', async () => {
    spoil(folder);
    const first = valueOf(openDatabase(folder, systemClock));
    expect(first.salvaged).toBeUndefined();
    const problem = await lookedAt(folder);
    expect(problem).toMatchObject({ kind: 'database-corrupt' });
    expect(problem?.remedy).toContain('End the bench and start it again');
    first.close();
    const next = valueOf(openDatabase(folder, systemClock));
    expect(next.salvaged).toMatchObject({ kind: 'records-salvaged' });
    expect(next.salvaged?.sentence).toMatch(/entries of notebooks/u);
    next.close();
    expect(existsSync(join(folder, mark))).toBe(false);
    expect(readdirSync(folder).filter((name) => name.startsWith('damaged-'))).toHaveLength(1);
  });

  it('is looked through at once where its end was cut off', async () => {
    const cut = await largeShop();
    const file = join(cut, databaseName);
    truncateSync(file, 66 * 1024 * 1024);
    expect(isCheckedFirst(file)).toBe(true);
    expect(valueOf(openDatabase(cut, systemClock)).salvaged).toMatchObject({ kind: 'records-salvaged' });
  });
});
