import { spawnSync } from 'node:child_process';
import { createServer, type Socket } from 'node:net';
import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type postgres from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readAddress } from '../../../src/main/archive/address.ts';
import { onWay } from '../../../src/main/archive/connect.ts';
import { fetchBuild } from '../../../src/main/archive/fetch.ts';
import { migrate } from '../../../src/main/archive/migrate.ts';
import { openNotes } from '../../../src/main/archive/notes.ts';
import { sendAll, senderOf } from '../../../src/main/archive/send.ts';
import { sendRecords } from '../../../src/main/archive/sendRecords.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { readIdentity } from '../../../src/main/store/identity.ts';
import { ok } from '../../../src/shared/basics/result.ts';
import { benchFolder, withRecords, writeBuild } from '../../support/archive/benchRecords.ts';
import {
  type ArchiveServer,
  archiveServer,
  asRole,
  benchRole,
  password,
  postgresBin,
} from '../../support/archive/server.ts';
import { valueOf } from '../../support/bench/open.ts';

describe.skipIf(postgresBin() === undefined)('an archive that is attacked', () => {
  let server: ArchiveServer;
  const folder = benchFolder();
  const reachAs = (role: string) => ({ address: valueOf(readAddress(server.to(role), 'to')), password });
  const setUp = async (): Promise<void> => void valueOf(await onWay(reachAs('archive_owner'), (way) => migrate(way)));
  const rogue = async <T>(use: (sql: postgres.Sql) => Promise<T>): Promise<T> => {
    const sql = asRole(server, benchRole(2));
    try {
      return await use(sql);
    } finally {
      await sql.end();
    }
  };

  beforeAll(async () => {
    server = await archiveServer();
    await setUp();
    withRecords(folder, 'bench-a', (database) => writeBuild(database, { build: 'a1', title: 'Rear axle' }));
    valueOf(await sendRecords(folder, reachAs(benchRole(1))));
  });
  afterAll(() => server.end());

  it.each([
    ['passwords', 'SELECT rolpassword FROM pg_authid'],
    ['another role', 'SET ROLE archive_owner'],
    ['files of the server', "SELECT pg_read_file('postgresql.auto.conf')"],
    ['programs of the server', "COPY (SELECT 1) TO PROGRAM 'true'"],
    ['tables of its own', 'CREATE TABLE axlewright.mine (x int)'],
    [
      'a line of the list',
      "INSERT INTO summary (build, entries, sent_by, record, heading, words) VALUES (1, 1, 1, '{}', '', '')",
    ],
    ['the order of the list', "SELECT nextval('summary_turn')"],
    ['the steps', "INSERT INTO step (number, name, must_be_known) VALUES (99, 'x', true)"],
    ['an empty table', 'TRUNCATE entry'],
    ['rules that do not hold for it', 'ALTER TABLE entry DISABLE ROW LEVEL SECURITY'],
    ['a role for another bench', "INSERT INTO bench (id, role) VALUES ('x', 'bench_3')"],
    ['another name for a bench', "INSERT INTO bench_called (bench, name, key) VALUES (1, 'mine', 'k')"],
    [
      'a notebook of another',
      "INSERT INTO entry (id, build, place, sent_by, format, sha256, body) VALUES ('x', 1, 0, 1, 1, sha256(''), '')",
    ],
    [
      'a photo under a wrong hash',
      "INSERT INTO photo (sha256, sent_by, at, width, height, jpeg) VALUES (sha256('x'), 1, '', 1, 1, 'y')",
    ],
    ['a line about a build in which it wrote nothing', "SELECT sum_up(1, 2, 99, '{}', '', '')"],
  ])('gives a bench nothing it has no right to: %s', async (_, sql) => {
    await rogue(async (way) =>
      expect(way.unsafe(sql)).rejects.toThrow(/denied|privilege|security|must be owner|violates/u),
    );
  });

  it('lets no bench have the last word in the list by saying that it knows more entries than there are', async () => {
    await rogue(async (way) => {
      await way`INSERT INTO bench (id, role) SELECT 'bench-b', session_user`;
      await way`INSERT INTO entry (id, build, place, sent_by, format, sha256, body)
        SELECT 'of-b', 1, 99, number, 1, sha256(''), '' FROM bench WHERE id = 'bench-b'`;
      await way`SELECT sum_up(1, (SELECT number FROM bench WHERE id = 'bench-b'), 2000000000, '{}', 'bent', 'bent')`;
    });
    expect(server.psql('SELECT heading FROM axlewright.summary')).toBe('bent');
    withRecords(folder, 'bench-a', (database) => {
      writeBuild(database, { build: 'a2' });
      database.sql.exec(`INSERT INTO notebook_entry (id, build, version, at, by, deed)
        SELECT 'more-' || id, build, version, at, by, deed FROM notebook_entry WHERE id IN ('a1-e2', 'a1-e3')`);
    });
    valueOf(await sendRecords(folder, reachAs(benchRole(1))));
    expect(server.psql('SELECT heading FROM axlewright.summary WHERE build = 1')).toContain('rear axle');
  });

  it('begins anew with another archive at the same address', async () => {
    const all = server.psql("SELECT count(*) FROM axlewright.entry WHERE id <> 'of-b'");
    server.psql('DROP DATABASE archive WITH (FORCE)', 'postgres');
    server.psql('CREATE DATABASE archive OWNER archive_owner', 'postgres');
    expect(await sendRecords(folder, reachAs(benchRole(1)))).toMatchObject({ problem: { kind: 'archive-empty' } });
    await setUp();
    valueOf(await sendRecords(folder, reachAs(benchRole(1))));
    expect(server.psql('SELECT count(*) FROM axlewright.entry')).toBe(all);
  });

  it('keeps builds whose clock stood at the first day or the last', async () => {
    const hours = (year: number): number => (Date.UTC(year, 5) - Date.UTC(2026, 0)) / 3_600_000;
    withRecords(folder, 'bench-a', (database) => {
      writeBuild(database, { build: 'first', clockOff_h: hours(1970) });
      writeBuild(database, { build: 'last', clockOff_h: hours(9999) });
    });
    expect(valueOf(await sendRecords(folder, reachAs(benchRole(1)))).refused).toEqual([]);
    expect(
      server.psql(
        "SELECT count(*) FROM axlewright.summary JOIN axlewright.build ON number = build WHERE id IN ('first', 'last')",
      ),
    ).toBe('2');
  });

  it('takes no entry that nobody could unpack again', async () => {
    withRecords(folder, 'bench-a', ({ sql }) =>
      sql.exec(`INSERT INTO notebook_entry (id, build, version, at, by, deed) SELECT 'huge', 'a2', 1, at, by,
        json_object('kind', 'noted', 'topic', 'complaint', 'text', hex(zeroblob(9000000))) FROM notebook_entry WHERE id = 'a2-e0'`),
    );
    const sent = valueOf(await sendRecords(folder, reachAs(benchRole(1))));
    expect(sent).toMatchObject({ entries: 0, refused: [{ id: 'huge', problem: { kind: 'cannot-hold' } }] });
    expect((await onWay(reachAs(benchRole(2)), (way) => fetchBuild(way, 'a2'))).ok).toBe(true);
    expect(valueOf(await sendRecords(folder, reachAs(benchRole(1)))).refused).toEqual([]);
  });

  it('is told as away where something listens and says nothing, or says something else', async () => {
    for (const word of [undefined, 'HTTP/1.1 400 Bad Request\r\n\r\n']) {
      const lines: Socket[] = [];
      const mute = createServer((line) => {
        lines.push(line);
        line.on('error', () => undefined);
        if (word !== undefined) line.end(word);
      }).listen(0, '127.0.0.1');
      await once(mute, 'listening');
      const { address } = reachAs(benchRole(1));
      const at = mute.address();
      const port = typeof at === 'object' && at !== null ? at.port : 0;
      const asked = onWay({ address: { ...address, port }, password }, async (way) => ok(await way`SELECT 1`));
      // Whoever says nothing is waited for: here it hangs up after a while.
      if (word === undefined) setTimeout(() => lines.forEach((line) => line.destroy()), 500);
      expect(await asked).toMatchObject({ ok: false, problem: { kind: 'archive-away' } });
      mute.close();
    }
  });

  it.skipIf(process.getuid?.() !== 0)(
    'goes on where the disk of the bench was full when it noted what was sent',
    async () => {
      const small = join(server.folder, 'notes');
      mkdirSync(small);
      expect(spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', small]).status).toBe(0);
      const records = benchFolder();
      const write = (build: string): void =>
        withRecords(records, 'bench-c', (database) => void writeBuild(database, { build }));
      write('c1');
      const database = valueOf(openDatabase(records, systemClock, { as: 'reader' }));
      const notes = openNotes(small);
      const send = () =>
        onWay(reachAs(benchRole(3)), (way) => sendAll(way, senderOf(database, valueOf(readIdentity(database)), notes)));
      try {
        valueOf(await send());
        write('c2');
        expect(spawnSync('dd', ['if=/dev/zero', `of=${join(small, 'full')}`, 'bs=4k']).status).not.toBe(0);
        expect(await send()).toMatchObject({ problem: { kind: 'disk-full' } });
        spawnSync('rm', [join(small, 'full')]);
        // It was there already: only the word of it could not be kept.
        expect(await send()).toMatchObject({ value: { entries: 0, refused: [] } });
        expect(server.psql("SELECT count(*) FROM axlewright.build WHERE id = 'c2'")).toBe('1');
      } finally {
        notes.close();
        database.close();
        spawnSync('umount', [small]);
      }
    },
  );
});
