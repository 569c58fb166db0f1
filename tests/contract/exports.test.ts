import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { verifyCertificate } from '../../src/main/certificate/verify.ts';
import type { BenchService, News } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';
import { described, limitsSet, trial } from '../support/records/scenario.ts';

const by = 'Technician A';

describe.each(Object.entries(transports))('builds that leave and come, over %s', (_name, reach) => {
  let [mine, theirs]: BenchService[] = [];
  let [here, there]: Reached[] = [];
  let build = '';
  beforeAll(async () => {
    [mine, theirs] = [benchInNewFolder(undefined, newFolder()), benchInNewFolder(undefined, newFolder())];
    [here, there] = [await reach(mine), await reach(theirs)];
    build = valueOf(await here.client.ask('builds.start', { title: 'Axle', technician: by })).id;
    for (const deed of [described, limitsSet, trial])
      valueOf(await here.client.ask('builds.write', { build, by, deed }));
  });
  afterAll(async () => {
    for (const one of [here, there]) await one?.close();
    for (const one of [mine, theirs]) await one?.close();
  });

  /** Both are there once the tests run. */
  const sides = (): readonly [Reached, Reached] => {
    if (here === undefined || there === undefined) throw new Error('no bench');
    return [here, there];
  };

  it('come whole to another bench, which hears of them; twice is the same as once', async () => {
    const [a, b] = sides();
    const heard: News<'notebook-changed'>[] = [];
    b.client.hear('notebook-changed', (news) => heard.push(news));
    const { files } = valueOf(await a.client.ask('exports.make', { build, as: 'bundle' }));
    const base64 = files[0]?.base64 ?? '';
    expect(valueOf(await b.client.ask('exports.take-in', { base64 }))).toMatchObject({ build, entries: 4, already: 0 });
    await expect.poll(() => heard.map((news) => news.build)).toEqual([build]);
    expect(valueOf(await b.client.ask('builds.read', { build }))).toEqual(
      valueOf(await a.client.ask('builds.read', { build })),
    );
    expect(valueOf(await b.client.ask('exports.take-in', { base64 }))).toMatchObject({ entries: 0, already: 4 });
    const back = valueOf(await b.client.ask('exports.make', { build, as: 'bundle' }));
    expect(back.files[0]?.base64).toBe(base64);
  });

  it('show their pages before anything is issued, tell how far they have come, and can be stopped', async () => {
    const [a] = sides();
    const heard: News<'paper'>[] = [];
    a.client.hear('paper', (news) => heard.push(news));
    const look = { build, page: 'letter', units: 'inch' } as const;
    const first = valueOf(
      await a.client.ask('certificate.pictures', { ...look, pixelsWide: 300, first: true, job: 'one' }),
    );
    expect(first.count).toBeGreaterThan(1);
    const pictures = first.pages.map((page) => PNG.sync.read(Buffer.from(page, 'base64')));
    expect(pictures.map(({ width, height }) => [width, Math.round((height / width) * 100)])).toEqual([[300, 129]]);
    expect(heard.length).toBeGreaterThan(2);
    expect(heard.every(({ job }) => job === 'one')).toBe(true);
    expect(heard.at(-1)?.share).toBeGreaterThan(0.9);
    const tag = valueOf(
      await a.client.ask('certificate.pictures', { ...look, pixelsWide: 300, slip: { kind: 'tag' } }),
    );
    expect(tag.count).toBe(1);
    const card = { kind: 'swap-card', swap: 'nobody' } as const;
    expect(await a.client.ask('certificate.pictures', { ...look, pixelsWide: 300, slip: card })).toMatchObject({
      ok: false,
      problem: { kind: 'no-swap-card' },
    });
    const stopped = a.client.ask('exports.make', { build, as: 'pdf', everything: true, job: 'two' });
    valueOf(await a.client.ask('papers.stop', { job: 'two' }));
    expect(await stopped).toMatchObject({ ok: false, problem: { kind: 'stopped' } });
    // Nothing was noted in it by any of this.
    expect(valueOf(await a.client.ask('builds.read', { build })).entries).toHaveLength(4);
    const { files } = valueOf(await a.client.ask('exports.make', { build, as: 'pdf', page: 'letter', units: 'inch' }));
    expect(await verifyCertificate(Buffer.from(files[0]?.base64 ?? '', 'base64'))).toMatchObject({
      ok: true,
      value: { holds: true, sameWordsToday: true },
    });
  });

  it('are refused with a word where they are none, and where there is nothing of that form', async () => {
    const [a, b] = sides();
    const none = Buffer.from('words').toString('base64');
    expect(await b.client.ask('exports.take-in', { base64: none })).toMatchObject({
      ok: false,
      problem: { kind: 'not-a-bundle' },
    });
    expect(await a.client.ask('exports.make', { build, as: 'journal' })).toMatchObject({
      ok: false,
      problem: { kind: 'nothing-measured' },
    });
  });

  it('bear the shop and the bench as they were set, under the fingerprint that the bench tells of itself', async () => {
    const [a] = sides();
    const change = { shopName: 'Example Driveline Works', shopAddress: '14 Mill Lane', benchName: 'Stand 2' };
    valueOf(await a.client.ask('settings.change', { change }));
    const { bench } = valueOf(await a.client.ask('bench.about', {}));
    const ask = { build, by, page: 'a4', units: 'metric' } as const;
    const first = valueOf(await a.client.ask('certificate.issue', ask));
    const verified = await verifyCertificate(Buffer.from(first.pdf_base64, 'base64'));
    expect(verified).toMatchObject({
      ok: true,
      value: { signedBy: { bench: 'Stand 2', id: bench.id, fingerprint: bench.fingerprint }, revision: 1 },
    });
    // Nothing was written since: it is the same certificate, and no revision.
    expect(valueOf(await a.client.ask('certificate.issue', ask)).sha256).toBe(first.sha256);
    valueOf(await a.client.ask('builds.write', { build, by, deed: { kind: 'noted', topic: 'note', text: 'more' } }));
    const second = valueOf(await a.client.ask('certificate.issue', ask));
    expect(await verifyCertificate(Buffer.from(second.pdf_base64, 'base64'))).toMatchObject({
      ok: true,
      value: { revision: 2, replaces: first.sha256 },
    });
  });
});
