import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseName } from '../../../src/main/store/database.ts';
import { witnessFile } from '../../../src/main/store/witness.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { inProcess } from '../../support/commandLine.ts';

const by = 'A. Tester';
const dial = { id: 'dial', label: 'Dial', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } } as const;

/** The files of a folder as a kill at this moment would leave them. */
function asKilled(folder: string): string {
  const copy = newFolder();
  for (const name of readdirSync(folder))
    if (statSync(join(folder, name)).isFile()) copyFileSync(join(folder, name), join(copy, name));
  rmSync(join(copy, `${databaseName}-shm`), { force: true });
  return copy;
}

/** A bench in mid-session with a build of six entries, and the files a kill would leave. */
async function killedSession(): Promise<{ readonly folder: string; readonly build: string }> {
  const service = benchInNewFolder(undefined, newFolder());
  onTestFinished(async () => void (await service.close()));
  const { id: build } = valueOf(await service.answers['builds.start']({ title: 'Killed', technician: by }));
  valueOf(await service.answers['gauges.save']({ gauge: dial }));
  for (let n = 1; n < 6; n += 1) {
    const deed = { kind: 'noted', topic: 'note', text: `Note ${n}` } as const;
    valueOf(await service.answers['builds.write']({ build, by, deed }));
  }
  const { dataFolder } = valueOf(await service.answers['bench.about']({}));
  // Readings are noted once a second: a press after that is among them.
  await vi.waitFor(
    async () => {
      await service.answers['gauges.press']({ gauge: 'dial', pedal: 'next' });
      expect(rowsNoted(dataFolder)).toBeGreaterThan(0);
    },
    { timeout: 10_000, interval: 100 },
  );
  return { folder: asKilled(dataFolder), build };
}

const rowsNoted = (folder: string): number =>
  (JSON.parse(readFileSync(witnessFile(folder), 'utf8')) as { rows: { journal: number } }).rows.journal;

function opened(folder: string): BenchService | string {
  const bench = openBench({ folder, clock: systemClock, version: 'test' });
  if (!bench.ok) return bench.problem.kind;
  onTestFinished(async () => void (await bench.value.close()));
  return bench.value;
}

async function entriesIn(folder: string, build: string): Promise<number | string> {
  const service = opened(folder);
  if (typeof service === 'string') return service;
  const notebook = await service.answers['builds.read']({ build });
  return notebook.ok ? notebook.value.entries.length : notebook.problem.kind;
}

describe('a database and the record beside it', () => {
  it('open as they were after a kill', async () => {
    const { folder, build } = await killedSession();
    expect(await entriesIn(folder, build)).toBe(6);
  });

  it.each([
    ['gone', (file: string) => rmSync(file)],
    ['empty', (file: string) => truncateSync(file, 0)],
  ])('are refused when the database is %s, and everything is left as it was', async (_what, spoil) => {
    const { folder } = await killedSession();
    spoil(join(folder, databaseName));
    const before = readFileSync(join(folder, `${databaseName}-wal`));
    expect(opened(folder)).toBe('records-missing');
    expect(readFileSync(join(folder, `${databaseName}-wal`)).equals(before)).toBe(true);
    const listed = await inProcess('builds', '--data', folder);
    expect(listed).toMatchObject({ code: 1, answers: [] });
    expect(listed.said).toMatch(/there were records/u);
  });

  it.each(['-wal', 'the record'] as const)('are refused without a database when only %s is left', async (left) => {
    const { folder } = await killedSession();
    rmSync(join(folder, databaseName));
    rmSync(left === '-wal' ? witnessFile(folder) : join(folder, `${databaseName}-wal`));
    expect(opened(folder)).toBe('records-missing');
  });

  it('keep every entry when the write-ahead log is deleted, because entries go into the file itself', async () => {
    const { folder, build } = await killedSession();
    rmSync(join(folder, `${databaseName}-wal`));
    expect(await entriesIn(folder, build)).toBe(6);
  });

  it('tell what is missing, keep the files as found, and give no number out twice', async () => {
    const { folder, build } = await killedSession();
    // As a disk loses the end of a log: the last entries and readings are not there any more.
    const sql = new Sqlite(join(folder, databaseName));
    sql.exec('DELETE FROM notebook_entry WHERE line > 4; DELETE FROM journal');
    sql.close();
    const lastRow = rowsNoted(folder);
    const service = opened(folder);
    if (typeof service === 'string') throw new Error(service);
    const { warnings } = valueOf(await service.answers['bench.about']({}));
    expect(warnings).toMatchObject([{ kind: 'records-lost' }]);
    expect(warnings[0]?.sentence).toMatch(/2 entries of notebooks, \d+ readings/u);
    const kept = readdirSync(folder).find((name) => name.startsWith('as-found-'));
    expect(existsSync(join(folder, kept ?? '', databaseName))).toBe(true);
    const pressed = valueOf(await service.answers['gauges.press']({ gauge: 'dial', pedal: 'next' }));
    expect(pressed.seq).toBeGreaterThan(lastRow);
    expect(valueOf(await service.answers['builds.read']({ build })).entries).toHaveLength(4);
  });

  it('tell when the last entry is another than the one that was written', async () => {
    const { folder } = await killedSession();
    const sql = new Sqlite(join(folder, databaseName));
    sql.exec("UPDATE notebook_entry SET by = 'Somebody' WHERE line = 6");
    sql.close();
    const service = opened(folder);
    if (typeof service === 'string') throw new Error(service);
    expect(valueOf(await service.answers['bench.about']({})).warnings).toMatchObject([{ kind: 'records-lost' }]);
  });

  it('begin anew in a folder that never had records, and pass over a record nobody can read', async () => {
    expect(typeof opened(newFolder())).toBe('object');
    const { folder, build } = await killedSession();
    writeFileSync(witnessFile(folder), '{"version":1,');
    expect(await entriesIn(folder, build)).toBe(6);
  });

  it('are refused when only certificates tell that there were records', () => {
    const folder = newFolder();
    mkdirSync(join(folder, 'certificates'));
    writeFileSync(join(folder, 'certificates', 'axle.pdf'), '');
    expect(opened(folder)).toBe('records-missing');
  });
});

describe('a database that is ours but not whole', () => {
  it.each([
    ['of version 0', 'PRAGMA user_version = 0'],
    ['of version -1', 'PRAGMA user_version = -1'],
    ['of a version it does not have the shape of', 'PRAGMA user_version = 2; DROP TABLE gauge_revision'],
    ['without a table', 'DROP TABLE gauge_revision'],
    ['with a table made otherwise', 'DROP TABLE gauge_check; CREATE TABLE gauge_check (line INTEGER PRIMARY KEY)'],
  ])('%s is damaged, in one sentence', async (_what, statement) => {
    const { folder } = await killedSession();
    const sql = new Sqlite(join(folder, databaseName));
    sql.exec(statement);
    sql.close();
    expect(opened(folder)).toBe('database-corrupt');
    const listed = await inProcess('builds', '--data', folder);
    expect(listed).toMatchObject({ code: 1, answers: [] });
    expect(listed.said).toMatch(/damaged/u);
  });
});
