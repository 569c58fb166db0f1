import { describe, expect, it, onTestFinished } from 'vitest';
import Sqlite from 'better-sqlite3';
import { join } from 'node:path';
import { databaseName } from '../../src/main/store/database.ts';
import { mostListed, mostLoose } from '../../src/shared/contract/builds.ts';
import { mostHeard } from '../../src/shared/contract/gauges.ts';
import { transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';

/** A shop with many of everything, written straight into its file. */
async function fullShop(): Promise<string> {
  const folder = newFolder();
  await benchInNewFolder(undefined, folder).close();
  const sql = new Sqlite(join(folder, databaseName));
  const counting = (count: number): string =>
    `WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${count})`;
  sql.exec(`
    ${counting(2 * mostListed + 3)}
    INSERT INTO notebook_entry (id, build, version, at, by, deed) SELECT 'e' || i, 'b' || i, 1, '2026-01-01T00:00:00.000Z',
      'A. Tester', '{"kind":"started","title":"Build ' || i || '","technician":"A. Tester"}' FROM n;
    INSERT INTO notebook_entry (id, build, version, at, by, deed)
      VALUES ('bad', 'bad', 1, '2026-01-01T00:00:00.000Z', 'A. Tester', '{}');
    INSERT INTO journal_gauge (gauge) VALUES ('dial');
    ${counting(mostHeard + 7)}
    INSERT INTO journal (gauge, kind, t, at, value, unit, raw) SELECT 1, 'reading', i, i, i / 1000.0, 'mm', x'' FROM n;
    ${counting(mostLoose + 1)}
    INSERT INTO loose_measurement (id, at, record) SELECT 'l' || i, '', '{}' FROM n`);
  sql.close();
  return folder;
}

describe.each(Object.entries(transports))('answers that can be large, over %s', (_name, reach) => {
  it('come a page at a time, and together they are everything', { timeout: 120_000 }, async () => {
    const service = benchInNewFolder(undefined, await fullShop());
    const reached = await reach(service);
    const { client } = reached;
    onTestFinished(async () => {
      await reached.close();
      await service.close();
    });
    const first = valueOf(await client.ask('builds.list', {}));
    expect(first).toHaveLength(mostListed);
    const ids = first.map(({ id }) => id);
    for (let last = first.at(-1); last !== undefined;) {
      const page = valueOf(await client.ask('builds.list', { before: last.id }));
      ids.push(...page.map(({ id }) => id));
      last = page.at(-1);
    }
    expect(new Set(ids).size).toBe(2 * mostListed + 3);
    expect(ids).toHaveLength(2 * mostListed + 3);
    expect(valueOf(await client.ask('builds.list', { before: 'nobody' }))).toEqual([]);
    expect(valueOf(await client.ask('builds.unreadable', {})).map(({ id }) => id)).toEqual(['bad']);

    const heard = valueOf(await client.ask('gauges.heard', { gauge: 'dial', from: 0, to: 2 ** 50 }));
    expect(heard).toHaveLength(mostHeard);
    const from = (heard.at(-1)?.seq ?? 0) + 1;
    expect(valueOf(await client.ask('gauges.heard', { gauge: 'dial', from, to: 2 ** 50 }))).toHaveLength(7);
    // None of these can be read; the page is looked for behind them and is empty.
    expect(valueOf(await client.ask('measurements.loose', {}))).toEqual([]);
  });

  it('a build that was written in stands first and is told as it is now', async () => {
    const service = benchInNewFolder();
    const reached = await reach(service);
    const { client } = reached;
    onTestFinished(async () => {
      await reached.close();
      await service.close();
    });
    const by = 'A. Tester';
    const one = valueOf(await client.ask('builds.start', { title: 'One', technician: by }));
    const two = valueOf(await client.ask('builds.start', { title: 'Two', technician: by }));
    const listed = async (): Promise<readonly string[]> =>
      valueOf(await client.ask('builds.list', {})).map(({ id, standsAt }) => `${id} ${standsAt}`);
    expect(await listed()).toEqual([`${two.id} `, `${one.id} `]);
    const assembly = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
    valueOf(await client.ask('builds.write', { build: one.id, by, deed: { kind: 'assembled', assembly } }));
    expect(await listed()).toEqual([`${one.id} Trial 1`, `${two.id} `]);
    valueOf(await client.ask('builds.undo', { build: one.id, by }));
    expect(await listed()).toEqual([`${one.id} `, `${two.id} `]);
  });

  it('builds are found by words, counted, and told one by one', async () => {
    const service = benchInNewFolder();
    const reached = await reach(service);
    const { client } = reached;
    onTestFinished(async () => {
      await reached.close();
      await service.close();
    });
    const by = 'A. Tester';
    const { id: build } = valueOf(await client.ask('builds.start', { title: 'Rear axle 1180', technician: by }));
    valueOf(await client.ask('builds.start', { title: 'Front axle 77', technician: by }));
    const deed = { kind: 'noted', topic: 'plate', text: 'AX-12 K' } as const;
    valueOf(await client.ask('builds.write', { build, by, deed }));
    const found = async (words: string): Promise<readonly string[]> =>
      valueOf(await client.ask('builds.list', { words })).map(({ id }) => id);
    expect(await found('ax12k 1180')).toEqual([build]);
    expect(await found('axle')).toHaveLength(2);
    expect(await found('quokka')).toEqual([]);
    expect(valueOf(await client.ask('builds.counts', {}))).toMatchObject({ all: 2, unfinished: 2, certified: 0 });
    expect(valueOf(await client.ask('builds.summary', { build })).summary).toMatchObject({ plate: 'AX-12 K' });
    expect(valueOf(await client.ask('builds.summary', { build: 'nobody' }))).toEqual({});
    expect(valueOf(await client.ask('shop.over-time', {}))).toMatchObject([{ builds: 2, right: 0 }]);
    const tooLong = await client.ask('builds.list', { words: 'x'.repeat(401) });
    expect(tooLong).toMatchObject({ ok: false });
  });
});
