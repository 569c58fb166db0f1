import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchService, News } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, valueOf } from '../support/bench/open.ts';
import { plainJpeg } from '../support/photos.ts';
import { makeUp, specSheet } from '../support/records/scenario.ts';

const by = 'A. Tester';
/** As large as photos come. */
const jpeg_base64 = plainJpeg(1300, 1000, 99).toString('base64');

describe.each(Object.entries(transports))('the contract over %s', (_name, reach) => {
  let service: BenchService;
  let reached: Reached;
  beforeAll(async () => {
    service = benchInNewFolder();
    reached = await reach(service);
  });
  afterAll(async () => {
    await reached.close();
    await service.close();
  });
  const start = async (title = 'Contract build') =>
    valueOf(await reached.client.ask('builds.start', { title, technician: by }));

  it('tells about the bench', async () => {
    expect(valueOf(await reached.client.ask('bench.about', {}))).toMatchObject({
      version: 'test',
      simulated: false,
      mayEnd: false,
      warnings: [],
    });
  });

  it('is ended from the screens only where its host lets it', async () => {
    expect(await reached.client.ask('bench.end', {})).toMatchObject({
      ok: false,
      problem: { kind: 'ends-otherwise' },
    });
  });

  it('starts, writes, reads and lists builds', async () => {
    const { id } = await start('Axle one');
    valueOf(await reached.client.ask('builds.write', { build: id, by, deed: { kind: 'described', makeUp } }));
    const written = valueOf(
      await reached.client.ask('builds.write', { build: id, by, deed: { kind: 'limits-set', specSheet } }),
    );
    expect(written.entries.map(({ deed }) => deed.kind)).toEqual(['started', 'described', 'limits-set']);
    expect(valueOf(await reached.client.ask('builds.read', { build: id }))).toEqual(written);
    expect(valueOf(await reached.client.ask('builds.list', {}))[0]).toMatchObject({
      id,
      title: 'Axle one',
      technician: by,
    });
    expect(valueOf(await reached.client.ask('spec-sheets.list', {}))).toEqual([specSheet]);
  });

  it('keeps the newest sheet of each name, whichever build it was typed in, and none that was struck', async () => {
    const [first, second] = [await start('Older'), await start('Newer')];
    const set = async (build: string, name: string, source: string) =>
      valueOf(
        await reached.client.ask('builds.write', {
          build,
          by,
          deed: {
            kind: 'limits-set',
            specSheet: {
              name,
              rule: 'simple',
              limits: [{ quantity: 'ring-gear-runout', max: { value: 0.05, unit: 'mm' }, source }],
            },
          },
        }),
      );
    await set(second.id, 'Sheet A', 'typed first');
    await set(first.id, 'Sheet A', 'typed later');
    await set(second.id, 'Sheet B', 'typed by mistake');
    valueOf(await reached.client.ask('builds.undo', { build: second.id, by }));
    const sheets = valueOf(await reached.client.ask('spec-sheets.list', {})).filter(({ name }) =>
      name.startsWith('Sheet'),
    );
    expect(sheets.map(({ name, limits }) => [name, limits[0]?.source])).toEqual([['Sheet A', 'typed later']]);
  });

  it('undoes and redoes without losing an entry', async () => {
    const { id } = await start();
    const noted = valueOf(
      await reached.client.ask('builds.write', {
        build: id,
        by,
        deed: { kind: 'noted', topic: 'noise', text: 'hums at speed' },
      }),
    );
    const undone = valueOf(await reached.client.ask('builds.undo', { build: id, by }));
    expect(undone.entries.slice(0, 2)).toEqual(noted.entries);
    const redone = valueOf(await reached.client.ask('builds.redo', { build: id, by }));
    expect(redone.entries.map(({ deed }) => deed.kind)).toEqual(['started', 'noted', 'struck', 'struck']);
    expect(await reached.client.ask('builds.redo', { build: id, by })).toMatchObject({
      ok: false,
      problem: { kind: 'nothing-to-undo' },
    });
  });

  it('tells everyone who listens when a notebook changes', async () => {
    const heard: News<'notebook-changed'>[] = [];
    const stop = reached.client.hear('notebook-changed', (news) => heard.push(news));
    const { id } = await start('Heard');
    await expect.poll(() => heard.length).toBe(1);
    expect(heard[0]).toMatchObject({ build: id, summary: { title: 'Heard' } });
    stop();
    await start('Not heard');
    expect(heard).toHaveLength(1);
  });

  it('keeps gauges, with what is wrong named by field', async () => {
    const gauge = {
      label: 'Indicator',
      kind: 'indicator',
      resolution: { value: 0.001, unit: 'mm' },
      link: 'serial:/dev/nowhere?baud=9600',
    } as const;
    const saved = valueOf(await reached.client.ask('gauges.save', { gauge }));
    expect(valueOf(await reached.client.ask('gauges.list', {}))).toContainEqual(saved);
    expect(await reached.client.ask('gauges.save', { gauge: { ...gauge, link: 'pigeon:post' } })).toMatchObject({
      ok: false,
      problem: { field: 'gauge.link' },
    });
  });

  it('refuses to measure what is not in the journal', async () => {
    const gauge = valueOf(
      await reached.client.ask('gauges.save', {
        gauge: { label: 'Dial', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } },
      }),
    );
    const settings = { kind: 'runout', mode: 'continuous' } as const;
    const answer = await reached.client.ask('measurements.keep-loose', {
      stretch: { gauge: gauge.id, from: 1, to: 1_000_000 },
      settings,
    });
    expect(answer).toMatchObject({ ok: false, problem: { kind: 'not-on-disk', field: 'stretch' } });
  });

  it('lets nobody write by hand what only the bench may write', async () => {
    const { id } = await start();
    const deed = { kind: 'certified', sha256: '0'.repeat(64), complete: true } as const;
    expect(await reached.client.ask('builds.write', { build: id, by, deed })).toMatchObject({
      ok: false,
      problem: { kind: 'refused', field: 'deed' },
    });
  });

  it.each([
    ['a wrong type', { build: 7 }, 'build'],
    ['a field too many', { build: 'x', extra: true }, ''],
    ['a missing field', {}, 'build'],
  ])('refuses %s and names the field', async (_what, ask, field) => {
    expect(await reached.client.ask('builds.read', ask as never)).toMatchObject({
      ok: false,
      problem: { kind: 'refused', field },
    });
  });

  it('names the limit that has no unit, deep down', async () => {
    const { id } = await start();
    const deed = {
      kind: 'limits-set',
      specSheet: { ...specSheet, limits: [{ quantity: 'cap-torque', max: { value: 80 }, source: 'sheet' }] },
    };
    const answer = await reached.client.ask('builds.write', { build: id, by, deed: deed as never });
    expect(answer).toMatchObject({
      ok: false,
      problem: {
        kind: 'refused',
        field: 'deed.specSheet.limits.0.max.unit',
        sentence: expect.stringContaining('a unit is needed'),
      },
    });
  });

  it('refuses a press of a gauge that is not there', async () => {
    expect(await reached.client.ask('gauges.press', { gauge: 'nobody', pedal: 'next' })).toMatchObject({
      ok: false,
      problem: { kind: 'no-gauge' },
    });
  });

  it('leaves a gauge as it was when it cannot be plugged in where it was said to be', async () => {
    const link = 'serial:/dev/nowhere?baud=9600';
    const gauge = { label: 'Stays', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' }, link } as const;
    const saved = valueOf(await reached.client.ask('gauges.save', { gauge }));
    for (const at of ['serial:/dev/nothing-here?baud=9600', 'pigeon:post', 'serial:'])
      expect(await reached.client.ask('gauges.plug-in', { gauge: saved.id, at }), at).toMatchObject({ ok: false });
    expect(valueOf(await reached.client.ask('gauges.list', {}))).toContainEqual(saved);
  });

  it('says so for builds and assemblies that are not there', async () => {
    expect(await reached.client.ask('builds.read', { build: 'nowhere' })).toMatchObject({
      ok: false,
      problem: { kind: 'no-build' },
    });
    const { id } = await start();
    const deed = { kind: 'overridden', assembly: 'nowhere', check: 'backlash', reason: 'because' } as const;
    expect(await reached.client.ask('builds.write', { build: id, by, deed })).toMatchObject({
      ok: false,
      problem: { kind: 'misplaced', field: 'assembly' },
    });
  });

  it('answers an unknown question with a problem, and garbage with silence', async () => {
    const next = reached.raw.next();
    reached.raw.send('not json');
    reached.raw.send('{"ask":"builds.list"}');
    reached.raw.send('null');
    reached.raw.send('[[[]]]');
    reached.raw.send(JSON.stringify({ id: 900_000, ask: '__proto__', with: {} }));
    expect(JSON.parse(await next)).toMatchObject({
      id: 900_000,
      result: { ok: false, problem: { kind: 'unknown-question' } },
    });
  });

  it('carries a photo there and back, whole', async () => {
    const { id } = await start();
    const assembled = {
      kind: 'assembled',
      assembly: { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false },
    } as const;
    const { entries } = valueOf(await reached.client.ask('builds.write', { build: id, by, deed: assembled }));
    expect(jpeg_base64.length).toBeGreaterThan(1024 * 1024);
    const { photo } = valueOf(
      await reached.client.ask('photos.keep', {
        build: id,
        by,
        assembly: entries.at(-1)?.id ?? '',
        from: 'clipboard',
        jpeg_base64,
      }),
    );
    expect(valueOf(await reached.client.ask('photos.read', { sha256: photo.sha256 }))).toEqual({ jpeg_base64 });
  });

  it('keeps many questions apart', async () => {
    const titles = Array.from({ length: 40 }, (_, index) => `Build ${index}`);
    const started = await Promise.all(titles.map((title) => start(title)));
    const read = await Promise.all(started.map(({ id }) => reached.client.ask('builds.read', { build: id })));
    expect(read.map((result) => valueOf(result).entries[0]?.deed)).toMatchObject(titles.map((title) => ({ title })));
  });
});
