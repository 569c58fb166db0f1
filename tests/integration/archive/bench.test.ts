import { setTimeout as after } from 'node:timers/promises';
import { statSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { passwordFile } from '../../../src/main/archive/secret.ts';
import type { ArchiveFoundBuilds, ArchiveState } from '../../../src/shared/contract/archive.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { inProcess } from '../../support/commandLine.ts';
import { benchFolder, withRecords, writeBuild } from '../../support/archive/benchRecords.ts';
import { type ArchiveServer, archiveServer, benchRole, password, postgresBin } from '../../support/archive/server.ts';
import { valueOf } from '../../support/bench/open.ts';

const reachTo = (address: string, secret = password) => ({
  address,
  password: secret,
  authority: { none: 'known to everybody' },
});

describe.skipIf(postgresBin() === undefined)('a bench with an archive', () => {
  let server: ArchiveServer;
  const opened: BenchService[] = [];
  const open = (folder: string): BenchService => {
    const bench = valueOf(openBench({ folder, clock: systemClock, version: 'test' }));
    opened.push(bench);
    return bench;
  };
  const [a, b] = [benchFolder(), benchFolder()];

  beforeAll(async () => {
    server = await archiveServer();
    process.env['PGPASSWORD'] = password;
    expect((await inProcess('archive', 'migrate', '--to', server.to('archive_owner'))).code).toBe(0);
    delete process.env['PGPASSWORD'];
    withRecords(a, 'bench-a', (database) => writeBuild(database, { build: 'a1', title: 'Rear axle 4711' }));
  });
  afterAll(async () => {
    await Promise.all(opened.map((bench) => bench.close()));
    server.end();
  });

  it('says in words why an archive would not take it, and keeps nothing then', async () => {
    const bench = open(a);
    const wrong = await bench.answers['archive.choose'](reachTo(server.to(benchRole(1)), 'wrong'));
    expect(wrong).toMatchObject({ ok: false, problem: { kind: 'archive-password' } });
    expect(valueOf(await bench.answers['archive.state']({})).address).toEqual({ none: 'not chosen' });
    expect(() => statSync(passwordFile(a))).toThrow(/ENOENT/u);
  });

  it('sends what waits, then what is written, and tells how it stands', async () => {
    const bench = opened[0] ?? open(a);
    valueOf(await bench.answers['archive.test'](reachTo(server.to(benchRole(1)))));
    valueOf(await bench.answers['archive.choose'](reachTo(server.to(benchRole(1)))));
    expect(statSync(passwordFile(a)).mode & 0o777).toBe(0o600);
    expect(valueOf(await bench.answers['archive.state']({})).password).toBe('in-file');
    await until(bench, ({ waiting, sending }) => !sending && 'entries' in waiting && waiting.entries === 0);
    expect(server.psql('SELECT count(*) FROM axlewright.build')).toBe('1');
    valueOf(await bench.answers['builds.start']({ title: 'Front axle 12', technician: 'A. Tester' }));
    await seen(async () => server.psql('SELECT count(*) FROM axlewright.build') === '2', 5000);
  });

  it('finds and brings what another bench sent, and hears of it without asking', async () => {
    const [one, two] = [opened[0] ?? open(a), open(b)];
    valueOf(await two.answers['archive.choose'](reachTo(server.to(benchRole(2)))));
    const found = await findIn(two, '4711');
    expect(found).toMatchObject({ from: 'archive', builds: [{ here: false, summary: { id: 'a1' } }] });
    const heard = Promise.withResolvers<readonly string[]>();
    two.hear('archive-news', ({ builds }) => heard.resolve(builds));
    await after(300);
    const begun = valueOf(await one.answers['builds.start']({ title: 'Second front axle', technician: 'A. Tester' }));
    expect(await heard.promise).toEqual([begun.id]);
    const home = valueOf(await two.answers['archive.fetch']({ build: 'a1' }));
    expect(home.entries).toBeGreaterThan(3);
    expect(valueOf(await two.answers['builds.read']({ build: 'a1' })).entries).toHaveLength(home.entries);
    expect(await findIn(two, '4711')).toMatchObject({ builds: [{ here: true }] });
  });

  it('tells two benches that write in one build of each other, and joins what both wrote', async () => {
    const [one, two] = [opened[0] ?? open(a), opened[1] ?? open(b)];
    const write = async (bench: BenchService, text: string) =>
      valueOf(
        await bench.answers['builds.write']({
          build: 'a1',
          by: 'A. Tester',
          deed: { kind: 'noted', topic: 'note', text },
        }),
      );
    const isTold =
      (told: boolean) =>
      ({ beside }: ArchiveState): boolean =>
        beside.some(({ build }) => build === 'a1') === told;
    const there = (): string => server.psql('SELECT count(*) FROM axlewright.entry');
    const before = there();
    await write(two, 'written at the second bench');
    await seen(async () => there() !== before, 20_000);
    // It took the build over with all that was in it: there is nothing it does not know.
    expect(isTold(false)(valueOf(await two.answers['archive.state']({})))).toBe(true);
    await write(one, 'written at the first bench');
    // The first hears it with the archive's word, the second because it listens.
    for (const bench of [one, two]) await until(bench, isTold(true));
    for (const bench of [one, two]) valueOf(await bench.answers['archive.fetch']({ build: 'a1' }));
    const texts = async (bench: BenchService) =>
      valueOf(await bench.answers['builds.read']({ build: 'a1' })).entries.flatMap(({ deed }) =>
        deed.kind === 'noted' ? [deed.text] : [],
      );
    const both = ['written at the first bench', 'written at the second bench'];
    expect((await texts(one)).filter((text) => both.includes(text)).toSorted()).toEqual(both);
    expect((await texts(two)).filter((text) => both.includes(text)).toSorted()).toEqual(both);
    // Brought here, it is read.
    for (const bench of [one, two]) await until(bench, isTold(false));
  });

  it('looks through its own records where the archive is away, says so, works on, and sends later', async () => {
    const bench = opened[1] ?? open(b);
    server.stop('immediate');
    const found = await findIn(bench, '4711');
    expect(found).toMatchObject({ from: 'here', why: { kind: 'archive-away' }, builds: [{ here: true }] });
    const { id } = valueOf(
      await bench.answers['builds.start']({ title: 'While it was away', technician: 'A. Tester' }),
    );
    await until(bench, ({ problem, waiting }) => problem !== undefined && 'entries' in waiting && waiting.entries > 0);
    server.start();
    await until(
      bench,
      ({ problem, waiting }) => problem === undefined && 'entries' in waiting && waiting.entries === 0,
    );
    expect(server.psql(`SELECT count(*) FROM axlewright.build WHERE id = '${id}'`)).toBe('1');
  });

  it('listens again after the archive was away, and says that something may have been missed', async () => {
    const [one, two] = [opened[0] ?? open(a), opened[1] ?? open(b)];
    expect(await findIn(two, '4711')).toMatchObject({ from: 'archive' });
    const heard: (readonly string[])[] = [];
    two.hear('archive-news', ({ builds }) => heard.push(builds));
    await after(300);
    const atStop = heard.length;
    server.stop('immediate');
    await seen(async () => heard.length > atStop, 5000);
    await after(1200);
    server.start();
    const count = heard.length;
    await seen(async () => heard.length > count, 10_000);
    const { id } = valueOf(await one.answers['builds.start']({ title: 'After it was away', technician: 'A. Tester' }));
    await seen(async () => heard.flat().includes(id), 10_000);
  });

  it('forgets archive and password when it is switched off', async () => {
    const bench = opened[1] ?? open(b);
    const state = valueOf(await bench.answers['archive.choose']({ none: 'switched off' }));
    expect(state.address).toEqual({ none: 'not chosen' });
    expect(() => statSync(passwordFile(b))).toThrow(/ENOENT/u);
    expect(state.password).toBe('nowhere');
    expect(await findIn(bench, 'away')).toMatchObject({ from: 'here', builds: [{}] });
  });
});

const findIn = async (bench: BenchService, words: string): Promise<ArchiveFoundBuilds> =>
  valueOf(await bench.answers['archive.find']({ words }));

/** Waits until the archive stands so with a bench. */
async function until(bench: BenchService, isSo: (state: ArchiveState) => boolean): Promise<void> {
  await seen(async () => isSo(valueOf(await bench.answers['archive.state']({}))), 20_000);
}

async function seen(isSo: () => Promise<boolean>, patience_ms: number): Promise<void> {
  const end = performance.now() + patience_ms;
  while (!(await isSo())) {
    if (performance.now() > end) throw new Error('it never came to that');
    await after(50);
  }
}
