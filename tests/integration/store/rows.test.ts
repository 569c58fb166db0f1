import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { databaseName } from '../../../src/main/store/database.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { inProcess } from '../../support/commandLine.ts';
import { simulatedIndicator } from '../../support/simulatedIndicator.ts';

const by = 'A. Tester';

function bench(folder: string): BenchService {
  const service = benchInNewFolder(undefined, folder);
  onTestFinished(async () => void (await service.close()));
  return service;
}

/** A folder with two builds, a gauge and what else there is, closed again. */
async function twoBuilds(): Promise<{ readonly folder: string; readonly bad: string; readonly good: string }> {
  const folder = newFolder();
  const service = benchInNewFolder(undefined, folder);
  const start = async (title: string): Promise<string> =>
    valueOf(await service.answers['builds.start']({ title, technician: by })).id;
  const [bad, good] = [await start('Bad one'), await start('Good one')];
  valueOf(
    await service.answers['gauges.save']({
      gauge: { id: 'dial', label: 'Dial', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } },
    }),
  );
  await service.close();
  return { folder, bad, good };
}

function byOtherHands(folder: string, statement: string, ...values: readonly unknown[]): void {
  const sql = new Sqlite(join(folder, databaseName));
  sql.prepare(statement).run(...values);
  sql.close();
}

const insert = 'INSERT INTO notebook_entry (id, build, version, at, by, deed) VALUES (?, ?, ?, ?, ?, ?)';
const note = JSON.stringify({ kind: 'noted', topic: 'noise', text: 'hums' });

describe('a row that cannot be read spoils only itself', () => {
  it.each([
    ['of a later version', [2, '2026-01-01T00:00:00Z', by, note], /later version/u],
    ['of a kind nobody knows', [1, '2026-01-01T00:00:00Z', by, '{"kind":"welded"}'], /deed\.kind/u],
    ['without a day', [1, 'yesterday', by, note], /at: not a date/u],
    ['signed by nobody', [1, '2026-01-01T00:00:00Z', '', note], /by: empty/u],
    ['that is a bare number', [1, '2026-01-01T00:00:00Z', by, '7'], /deed: not/u],
  ] as const)('an entry %s', async (_what, row, why) => {
    const { folder, bad, good } = await twoBuilds();
    byOtherHands(folder, insert, 'foreign', bad, ...row);
    const { answers } = bench(folder);
    expect(valueOf(await answers['builds.list']({})).map(({ id }) => id)).toEqual([good]);
    const unreadable = valueOf(await answers['builds.unreadable']({}));
    expect(unreadable).toMatchObject([{ id: bad, problem: { kind: 'unreadable' } }]);
    expect(unreadable[0]?.problem.sentence).toContain('Bad one');
    expect(unreadable[0]?.problem.sentence).toMatch(why);
    for (const question of ['builds.read', 'certificate.issue'] as const) {
      const asked = await answers[question]({ build: bad, by, page: 'a4', units: 'metric' } as never);
      expect(asked, question).toMatchObject({ ok: false, problem: { kind: 'unreadable' } });
    }
    valueOf(await answers['builds.write']({ build: good, by, deed: JSON.parse(note) }));
    expect(valueOf(await answers['spec-sheets.list']({}))).toEqual([]);
    expect(valueOf(await answers['bench.about']({})).warnings).toMatchObject([{ kind: 'unreadable' }]);
  });

  it('on the command line too', async () => {
    const { folder, bad, good } = await twoBuilds();
    byOtherHands(folder, insert, 'foreign', bad, 2, '2026-01-01T00:00:00Z', by, note);
    const listed = await inProcess('builds', '--data', folder);
    expect(listed).toMatchObject({ code: 0, answers: [[{ id: good }]] });
    expect(listed.said).toContain(bad);
    const words = ['--as', 'json', '--out', newFolder(), '--data', folder];
    expect(await inProcess('export', '--build', good, ...words)).toMatchObject({ code: 0 });
    const refused = await inProcess('export', '--build', bad, ...words);
    expect(refused).toMatchObject({ code: 1, answers: [] });
    expect(refused.said).toMatch(/later version/u);
  });

  it('a gauge, a check, a measurement and the drawer', async () => {
    const { folder, good } = await twoBuilds();
    byOtherHands(folder, "INSERT INTO gauge_revision (id, at, record) VALUES ('broken', '', '{}')");
    byOtherHands(folder, "INSERT INTO gauge_check (gauge, record) VALUES ('dial', '{}')");
    byOtherHands(folder, "INSERT INTO loose_measurement (id, at, record) VALUES ('loose', '', '{}')");
    byOtherHands(folder, "INSERT INTO drawer_revision (at, record) VALUES ('', '[]')");
    const { answers } = bench(folder);
    expect(valueOf(await answers['gauges.list']({})).map(({ id }) => id)).toEqual(['dial']);
    expect(valueOf(await answers['gauge-checks.list']({ gauge: 'dial' }))).toEqual([]);
    expect(valueOf(await answers['measurements.loose']({}))).toEqual([]);
    expect(await answers['drawer.read']({})).toMatchObject({ ok: false, problem: { kind: 'unreadable' } });
    valueOf(await answers['drawer.save']({ drawer: { sizes: [] } }));
    expect(valueOf(await answers['drawer.read']({}))).toEqual({ sizes: [] });
    expect(valueOf(await answers['builds.read']({ build: good })).id).toBe(good);
    expect(valueOf(await answers['bench.about']({})).warnings.map(({ kind }) => kind)).toEqual(
      Array.from({ length: 3 }, () => 'unreadable'),
    );
  });
});

describe('a setting that cannot be read', () => {
  it('is told by its name and is as usual; the others stand, and it can be set anew', async () => {
    const { folder } = await twoBuilds();
    const before = benchInNewFolder(undefined, folder);
    valueOf(await before.answers['settings.change']({ change: { units: 'inch', theme: 'dark' } }));
    await before.close();
    byOtherHands(folder, "UPDATE setting SET value = '{' WHERE name = 'units'");
    byOtherHands(folder, "INSERT INTO setting (name, at, value) VALUES ('of-a-later-version', '', '1')");
    const { answers } = bench(folder);
    expect(valueOf(await answers['settings.read']({}))).toEqual({ theme: 'dark' });
    expect(valueOf(await answers['bench.about']({})).warnings[0]?.sentence).toContain('"units"');
    valueOf(await answers['settings.change']({ change: { units: 'metric' } }));
    expect(valueOf(await answers['settings.read']({}))).toEqual({ theme: 'dark', units: 'metric' });
  });
});

describe('nothing is written that could not be read again', () => {
  it('not a backlash without a station, recorded or kept loose', async () => {
    const { service, gauge, stretch } = await simulatedIndicator(['0.100', '0.100', '0.100']);
    const settings = { kind: 'backlash', basis: { direction: 'along-rotation', at: 'heel' }, nextBy: 'press' } as const;
    const { id: build } = valueOf(await service.answers['builds.start']({ title: 'One', technician: by }));
    const trial = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
    const deed = { kind: 'assembled', assembly: trial } as const;
    const { entries } = valueOf(await service.answers['builds.write']({ build, by, deed }));
    const assembly = entries.at(-1)?.id ?? '';
    const where = { build, by, assembly, check: 'backlash', stretch, settings } as const;
    const recorded = await service.answers['measurements.record'](where);
    expect(recorded).toMatchObject({ ok: false, problem: { sentence: 'No station is finished yet.' } });
    expect(await service.answers['measurements.keep-loose']({ stretch, settings })).toMatchObject({ ok: false });
    expect(valueOf(await service.answers['builds.read']({ build })).entries).toHaveLength(2);
    expect(valueOf(await service.answers['builds.list']({}))).toHaveLength(1);
    expect(valueOf(await service.answers['measurements.loose']({}))).toEqual([]);
    expect(gauge).not.toBe('');
  });

  it('not an entry that its schema refuses, whoever adds it', () => {
    const opened = openDatabase(newFolder(), systemClock);
    if (!opened.ok) throw new Error(opened.problem.sentence);
    onTestFinished(() => opened.value.close());
    const notebooks = openNotebooks(opened.value);
    const entry = {
      id: 'e1',
      version: 1,
      at: 'today',
      by,
      deed: { kind: 'noted', topic: 'noise', text: 'hums' },
    } as const;
    expect(notebooks.add('b1', entry)).toMatchObject({ ok: false, problem: { kind: 'not-writable' } });
    expect(notebooks.read('b1')).toBeUndefined();
  });
});
