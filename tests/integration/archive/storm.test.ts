import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { readAddress } from '../../../src/main/archive/address.ts';
import { onWay, type Way } from '../../../src/main/archive/connect.ts';
import { fetchBuild } from '../../../src/main/archive/fetch.ts';
import { hashOf } from '../../../src/main/archive/gather.ts';
import { unpackEntry, unpackStretch } from '../../../src/main/archive/hold.ts';
import { canonicalJson } from '../../../src/main/certificate/hash.ts';
import { gatherReadings, hashOfLines } from '../../../src/main/certificate/readings.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import { originsOf } from '../../../src/main/store/origins.ts';
import { openStretches } from '../../../src/main/store/stretches.ts';
import { ok } from '../../../src/shared/basics/result.ts';
import { judgedOf } from '../../../src/shared/job/certifying/certificateData.ts';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import type { Entry } from '../../../src/shared/job/records/notebook.ts';
import { benchFolder, withRecords, writeBuild } from '../../support/archive/benchRecords.ts';
import { openProxy, type Proxy } from '../../support/archive/proxy.ts';
import { type ArchiveServer, archiveServer, benchRole, password, postgresBin } from '../../support/archive/server.ts';
import { valueOf } from '../../support/bench/open.ts';
import { inProcess } from '../../support/commandLine.ts';

const count = 20;
const program = resolve(import.meta.dirname, '..', '..', 'support', 'archive', 'benchToBeKilled.ts');

interface Stand {
  readonly number: number;
  readonly bench: string;
  readonly folder: string;
}

describe.skipIf(postgresBin() === undefined)('an archive in a storm', () => {
  let server: ArchiveServer;
  let proxy: Proxy;
  const stands = Array.from({ length: count }, (_, n): Stand => ({
    number: n + 1,
    bench: `bench-${n + 1}`,
    folder: benchFolder(),
  }));
  const to = (role: string, port = server.port): string => `postgres://${role}@127.0.0.1:${port}/archive`;
  const archive = (deed: string, role: string, ...words: readonly string[]) =>
    inProcess('archive', deed, '--to', to(role), ...words);
  const dump = (): string => join(server.folder, 'dump');
  const connection = (): readonly string[] => ['-h', '127.0.0.1', '-p', String(server.port), '-U', 'keeper'];

  beforeAll(async () => {
    process.env['PGPASSWORD'] = password;
    server = await archiveServer({ benches: count + 1 });
    proxy = await openProxy(server.port);
    expect((await archive('migrate', 'archive_owner')).code).toBe(0);
  });
  afterAll(async () => {
    delete process.env['PGPASSWORD'];
    await proxy.close();
    server.end();
  });

  it(
    'gets everything from twenty benches that are killed, cut off and out of time, and from a server that falls',
    { timeout: 170_000 },
    async () => {
      const chance = seeded(11);
      const running = new Map<number, ChildProcess>();
      const starts = new Map<number, number>();
      const done = new Set<number>();
      const start = ({ number, bench, folder }: Stand): void => {
        // Clocks a month off in either direction, and the bench may have lived long: none of it matters.
        const off_h = (number - count / 2) * 72;
        const child = spawn(
          process.execPath,
          [program, folder, bench, to(benchRole(number), proxy.port), '1', String(off_h)],
          { stdio: ['ignore', 'ignore', 'inherit'] },
        );
        running.set(number, child);
        starts.set(number, (starts.get(number) ?? 0) + 1);
        child.on('exit', (code) => {
          running.delete(number);
          if (code === 0) done.add(number);
          else start({ number, bench, folder });
        });
      };
      for (const stand of stands) start(stand);
      let [kills, cuts, falls] = [0, 0, 0];
      while (done.size < count) {
        await after(150 + 250 * chance.next());
        if (kills < 15 && running.size > 0) {
          [...running.values()][Math.floor(chance.next() * running.size)]?.kill('SIGKILL');
          kills += 1;
        }
        if (cuts < 20) {
          proxy.cut();
          cuts += 1;
        }
        if (falls < 2 && proxy.sent() > (falls + 1) * 120_000) {
          server.stop('immediate');
          await after(300);
          server.start();
          falls += 1;
          if (falls === 1) server.run('pg_dump', ...connection(), '-Fc', '-f', dump(), 'archive');
        }
      }
      expect({ kills, falls, starts: [...starts.values()].reduce((sum, each) => sum + each, 0) }).toMatchObject({
        falls: 2,
      });
      expect([...starts.values()].reduce((sum, each) => sum + each, 0)).toBeGreaterThan(count);
      await isUnion(stands, server);
    },
  );

  it('gets again what it lost with a dump of an earlier hour', { timeout: 120_000 }, async () => {
    const whole = Number(server.psql('SELECT count(*) FROM axlewright.entry'));
    server.psql('DROP DATABASE archive WITH (FORCE)', 'postgres');
    server.psql('CREATE DATABASE archive OWNER archive_owner', 'postgres');
    server.run('pg_restore', ...connection(), '-d', 'archive', dump());
    expect(Number(server.psql('SELECT count(*) FROM axlewright.entry'))).toBeLessThan(whole);
    for (const { number, folder } of stands) {
      const sent = await archive('send', benchRole(number), '--once', '--data', folder);
      expect(sent).toMatchObject({ code: 0, answers: [{ refused: [] }] });
    }
    expect(Number(server.psql('SELECT count(*) FROM axlewright.entry'))).toBe(whole);
    await isUnion(stands, server);
  });

  it('goes through its notebooks anew where the bench was brought back from an earlier day, or lost its notes', async () => {
    const [{ folder, bench, number }] = stands as [Stand, ...Stand[]];
    withRecords(folder, bench, (database) => {
      writeBuild(database, { build: `${bench}-late`, title: 'Written after the storm' });
      // As after a backup brought back: the line of the cursor has become another entry's.
      database.sql.exec(`UPDATE notebook_entry SET line = line + 1000 WHERE build = '${bench}-late'`);
    });
    const sent = await archive('send', benchRole(number), '--once', '--data', folder);
    expect(sent).toMatchObject({ code: 0, answers: [{ refused: [] }] });
    withRecords(folder, bench, ({ sql }) => sql.exec('UPDATE notebook_entry SET line = line + 5000'));
    const again = await archive('send', benchRole(number), '--once', '--data', folder);
    expect(again.answers).toEqual([{ entries: 0, readings: 0, photos: 0, refused: [] }]);
    await isUnion(stands, server);
  });

  it.skipIf(process.getuid?.() !== 0)(
    'loses nothing where the disk of the archive is full, and goes on when it has room',
    async () => {
      const small = join(server.folder, 'small');
      mkdirSync(small);
      expect(spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', small]).status).toBe(0);
      const { uid, gid } = statSync(join(server.folder, 'data'));
      chownSync(small, uid, gid);
      chmodSync(small, 0o700);
      try {
        server.psql(`CREATE TABLESPACE small LOCATION '${small}'`);
        server.psql('ALTER TABLE axlewright.photo SET TABLESPACE small');
        const stand = { number: count + 1, bench: `bench-${count + 1}`, folder: benchFolder() };
        withRecords(stand.folder, stand.bench, (database) =>
          writeBuild(database, { build: 'large', photo: Buffer.alloc(2_000_000, 'a picture larger than the disk') }),
        );
        const full = await archive('send', benchRole(stand.number), '--once', '--data', stand.folder);
        expect(full).toMatchObject({ code: 1, answers: [] });
        expect(full.said).toContain('has no room on its disk');
        expect(server.psql("SELECT count(*) FROM axlewright.build WHERE id = 'large'")).toBe('0');
        expect(spawnSync('mount', ['-o', 'remount,size=32m', small]).status).toBe(0);
        expect(await archive('send', benchRole(stand.number), '--once', '--data', stand.folder)).toMatchObject({
          code: 0,
          answers: [{ photos: 1 }],
        });
        await isUnion([...stands, stand], server);
      } finally {
        server.stop('immediate');
        spawnSync('umount', [small]);
      }
    },
  );
});

/** Holds every notebook against the archive: all entries are there and no others, every hash is right, every build opens with equal numbers. */
async function isUnion(stands: readonly Stand[], server: ArchiveServer): Promise<void> {
  const reach = { address: valueOf(readAddress(server.to('keeper'), 'to')), password };
  const checked = await onWay(reach, async (way) => {
    const all = new Set<string>();
    for (const { folder, bench } of stands) {
      const builds = withRecords(folder, bench, (database) => {
        const ids = database.sql.prepare<[], string>('SELECT DISTINCT build FROM notebook_entry').pluck().all();
        const notebooks = openNotebooks(database);
        return ids.map((id) => {
          const { entries } = valueOf(notebooks.read(id) ?? never());
          const origins = originsOf(database, id);
          const { csv, index } = gatherReadings(
            entries,
            (entry) => origins.get(entry) ?? bench,
            openStretches(database, bench).lines,
          );
          return { id, entries, csv, index };
        });
      });
      for (const { id, entries, csv, index } of builds) {
        for (const { id: entry } of entries) all.add(entry);
        const there = valueOf(await fetchBuild(way, id));
        expect(there.readingsCsv).toBe(csv);
        expect(there.readings).toEqual(index);
        const theirs: readonly Entry[] = there.entries.map(({ entry }) => entry);
        expect(canonicalJson(theirs)).toBe(canonicalJson(entries));
        expect(canonicalJson(judgedOf(readNotebook(id, theirs)))).toBe(
          canonicalJson(judgedOf(readNotebook(id, entries))),
        );
      }
    }
    expect(await idsIn(way)).toEqual([...all].toSorted());
    await hashesAreRight(way);
    return ok(true);
  });
  expect(checked).toEqual(ok(true));
}

const never = (): never => {
  throw new Error('a build without entries');
};

const idsIn = async (way: Way): Promise<string[]> =>
  (await way<{ id: string }[]>`SELECT id FROM entry`).map(({ id }) => id).toSorted();

async function hashesAreRight(way: Way): Promise<void> {
  for (const { format, body, sha256 } of await way<
    { format: number; body: Buffer; sha256: Buffer }[]
  >`SELECT format, body, sha256 FROM entry`)
    expect(hashOf(unpackEntry(format, body) ?? '').equals(sha256)).toBe(true);
  for (const { format, body, sha256 } of await way<
    { format: number; body: Buffer; sha256: Buffer }[]
  >`SELECT format, body, sha256 FROM stretch`)
    expect(hashOfLines(unpackStretch(format, body) ?? [])).toBe(sha256.toString('hex'));
}
