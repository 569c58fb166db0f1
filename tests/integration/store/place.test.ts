import { existsSync, mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { BenchService, News } from '../../../src/shared/contract/contract.ts';
import { databaseName } from '../../../src/main/store/database.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { journalForTest } from '../../support/openJournal.ts';

const by = 'A. Tester';

function bench(folder: string): { readonly service: BenchService; readonly told: News<'bench-warnings'>[] } {
  const service = benchInNewFolder(undefined, folder);
  onTestFinished(async () => void (await service.close()));
  const told: News<'bench-warnings'>[] = [];
  service.hear('bench-warnings', (warnings) => told.push(warnings));
  return { service, told };
}

describe('a data folder that goes away under a running bench', () => {
  it.each([
    ['is moved', (folder: string) => renameSync(folder, `${folder}-away`)],
    ['is deleted', (folder: string) => rmSync(folder, { recursive: true })],
    ['loses its database', (folder: string) => rmSync(join(folder, databaseName))],
    [
      'gets another database',
      (folder: string) => {
        rmSync(join(folder, databaseName));
        writeFileSync(join(folder, databaseName), '');
      },
    ],
  ])('%s: it is told and nothing is called recorded', async (_what, takeAway) => {
    const folder = newFolder();
    const { service, told } = bench(folder);
    const { id: build } = valueOf(await service.answers['builds.start']({ title: 'One', technician: by }));
    takeAway(folder);
    const deed = { kind: 'noted', topic: 'note', text: 'Never on disk' } as const;
    const written = await service.answers['builds.write']({ build, by, deed });
    expect(written).toMatchObject({ ok: false, problem: { kind: 'place-gone' } });
    await vi.waitFor(() => expect(told.at(-1)?.map(({ kind }) => kind)).toContain('place-gone'), { timeout: 20_000 });
    expect(valueOf(await service.answers['builds.read']({ build })).entries).toHaveLength(1);
  });

  it('and comes back: the bench goes on by itself and writes what it holds', async () => {
    const folder = newFolder();
    const { service, told } = bench(folder);
    const { id: build } = valueOf(await service.answers['builds.start']({ title: 'One', technician: by }));
    renameSync(folder, `${folder}-away`);
    await vi.waitFor(() => expect(told.at(-1)).toHaveLength(1), { timeout: 20_000 });
    renameSync(`${folder}-away`, folder);
    await vi.waitFor(() => expect(told.at(-1)).toEqual([]), { timeout: 20_000 });
    const deed = { kind: 'noted', topic: 'note', text: 'On disk again' } as const;
    expect(valueOf(await service.answers['builds.write']({ build, by, deed })).entries).toHaveLength(2);
  });
});

describe('a disk that takes the rows and not the record beside them', () => {
  it('has the rows once, and nothing is called refused that was written', () => {
    const { database, journal } = journalForTest();
    // Nothing can be written where a folder lies.
    mkdirSync(join(database.folder, 'axlewright.last.part'));
    const at = 1_700_000_000_000;
    for (let n = 0; n < 5; n += 1) {
      journal.append({ kind: 'pedal', t: n, at, note: 'next' });
      expect(journal.flush()).toEqual({ ok: true, value: undefined });
    }
    const deed = { kind: 'started', title: 'One', technician: by } as const;
    const entry = { id: 'e', version: 1, at: '2026-01-01T00:00:00Z', by, deed } as const;
    expect(openNotebooks(database).add('b', entry)).toMatchObject({ ok: true });
    expect(database.sql.prepare('SELECT count(*) FROM journal').pluck().get()).toBe(6);
  });

  it('and one that says no after it has taken the rows has them once as well', () => {
    const { database, journal } = journalForTest();
    journal.flush();
    const place = { ...database.place };
    const press = { kind: 'pedal', t: 1, at: 1, note: 'next' } as const;
    let calls = 0;
    // As a commit whose rows are on disk and whose answer is an error: the first try is called refused.
    Object.assign(database.place, { problem: () => ((calls += 1) === 1 ? refusedOnce : place.problem()) });
    const seq = journal.append(press);
    expect(journal.flush()).toMatchObject({ ok: false });
    database.sql.prepare("INSERT INTO journal (seq, kind, t, at) VALUES (?, 'pedal', 1, 1)").run(seq);
    journal.append(press);
    expect(journal.flush()).toMatchObject({ ok: true });
    expect([...journal.stretch(undefined, seq, seq + 9)].map((row) => row.seq)).toEqual([seq, seq + 1]);
  });
});

const refusedOnce = { kind: 'disk-error', sentence: 'It failed.', remedy: 'Look.' } as const;

describe('rows that the disk refused to the last', () => {
  const press = { kind: 'pedal', t: 1, at: 1_700_000_000_000, note: 'next' } as const;

  it('are put elsewhere and counted aloud', () => {
    const { database, journal } = journalForTest();
    journal.flush();
    renameSync(database.folder, `${database.folder}-away`);
    for (let n = 0; n < 5; n += 1) journal.append(press);
    const closed = journal.close();
    renameSync(`${database.folder}-away`, database.folder);
    if (closed.ok) throw new Error('the rows were called written');
    expect(closed.problem.kind).toBe('put-elsewhere');
    expect(closed.problem.sentence).toMatch(/5 rows of readings, the first of 2023-11-14T22:13:20/u);
    const [file = ''] = /\/\S+\.jsonl/u.exec(closed.problem.sentence) ?? [];
    expect(existsSync(file)).toBe(true);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    rmSync(file);
  });

  it('fail the end of the bench, so that whoever started it hears of it', async () => {
    const folder = newFolder();
    const service = benchInNewFolder(undefined, folder);
    const dial = { id: 'g', label: 'Dial', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } } as const;
    valueOf(await service.answers['gauges.save']({ gauge: dial }));
    renameSync(folder, `${folder}-away`);
    valueOf(await service.answers['gauges.press']({ gauge: 'g', pedal: 'next' }));
    const closed = await service.close();
    if (closed.ok) throw new Error('the press was called written');
    const [file = ''] = /\/\S+\.jsonl/u.exec(closed.problem.sentence) ?? [];
    rmSync(file);
  });
});

describe('what is in a data folder', () => {
  it('is for its owner alone', async () => {
    const folder = join(newFolder(), 'data');
    const { service } = bench(folder);
    valueOf(await service.answers['builds.start']({ title: 'One', technician: by }));
    const report = valueOf(await service.answers['bench.report']({}));
    const rights = (path: string): string => (statSync(path).mode & 0o777).toString(8);
    expect(rights(folder)).toBe('700');
    for (const name of [databaseName, `${databaseName}-wal`, 'axlewright.pen', 'axlewright.last'])
      expect(rights(join(folder, name)), name).toBe('600');
    await vi.waitFor(() => expect(rights(join(folder, 'log', 'bench.jsonl'))).toBe('600'), { timeout: 20_000 });
    expect(rights(report.folder)).toBe('700');
    expect(rights(join(report.folder, report.file))).toBe('600');
  });

  it('is closed to a page limit as to a full disk, as a value', () => {
    const { database } = journalForTest();
    const pages = Number(database.sql.pragma('page_count', { simple: true }));
    database.sql.pragma(`max_page_count = ${pages}`);
    const notebooks = openNotebooks(database);
    const at = '2026-01-01T00:00:00Z';
    const text = 'x'.repeat(3900);
    const added = Array.from({ length: 40 }, (_, n) =>
      notebooks.add('b', { id: `e${n}`, version: 1, at, by, deed: { kind: 'noted', topic: 'note', text } }),
    );
    expect(added.at(-1)).toMatchObject({ ok: false, problem: { kind: 'disk-full' } });
  });
});
