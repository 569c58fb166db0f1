import { rmSync } from 'node:fs';
import { setTimeout as after } from 'node:timers/promises';
import { readAddress } from '../../src/main/archive/address.ts';
import { onWay, openWay, type Reach, type Way } from '../../src/main/archive/connect.ts';
import { fetchHome } from '../../src/main/archive/fetchHome.ts';
import { findBuilds } from '../../src/main/archive/find.ts';
import { greet } from '../../src/main/archive/greet.ts';
import { migrate } from '../../src/main/archive/migrate.ts';
import { openNotes } from '../../src/main/archive/notes.ts';
import { wait_ms } from '../../src/main/archive/patience.ts';
import { sendAll, senderOf } from '../../src/main/archive/send.ts';
import { systemClock } from '../../src/main/clock.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import { openIdentity, readIdentity } from '../../src/main/store/identity.ts';
import { ok } from '../../src/shared/basics/result.ts';
import { benchFolder, withRecords, writeManyBuilds } from '../support/archive/benchRecords.ts';
import { type ArchiveServer, archiveServer, benchRole, password, postgresBin } from '../support/archive/server.ts';
import { valueOf } from '../support/bench/open.ts';

export const takesWords = true;

type Print = (line: string) => void;

/** Rocking sessions of a build: 394 rows each. */
const sessions = 5;

/**
 * The archive: `npm run bench archive [BUILDS to send] [BUILDS to find among] [BENCHES]`, 200, 10,000 and 500 without words. Against
 * a PostgreSQL of its own with default settings. The readings are those of a simulated hand; what they pack to is theirs.
 */
export default async function bench(print: Print, words: readonly string[]): Promise<void> {
  if (postgresBin() === undefined) return print('there is no PostgreSQL here: nothing was measured');
  const [builds = 200, among = 10_000, benches = 500] = words.map(Number);
  const server = await archiveServer();
  const folder = benchFolder();
  const reachAs = (role: string): Reach => ({ address: valueOf(readAddress(server.to(role), 'to')), password });
  try {
    valueOf(await onWay(reachAs('archive_owner'), (way) => migrate(way)));
    await sending({ server, folder, builds, reach: reachAs(benchRole(1)) }, print);
    await opening(reachAs(benchRole(2)), print);
    await finding({ server, among, reach: reachAs(benchRole(2)) }, print);
    await manyBenches(reachAs('archive_owner'), benches, print);
  } finally {
    server.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Sending {
  readonly server: ArchiveServer;
  readonly folder: string;
  readonly builds: number;
  readonly reach: Reach;
}

async function sending({ server, folder, builds, reach }: Sending, print: Print): Promise<void> {
  const each = withRecords(folder, 'bench-a', (database) => writeManyBuilds(database, builds, sessions));
  const database = valueOf(openDatabase(folder, systemClock, { as: 'reader' }));
  const notes = openNotes(folder);
  const sender = senderOf(database, valueOf(readIdentity(database)), notes);
  const began = { ms: performance.now(), cpu: process.cpuUsage() };
  const sent = valueOf(await onWay(reach, (way) => sendAll(way, sender)));
  const took_s = (performance.now() - began.ms) / 1000;
  const { user, system } = process.cpuUsage(began.cpu);
  const cpu_s = (user + system) / 1e6;
  print(
    `${builds} builds of ${each} readings sent, ${sent.entries} entries: ${took_s.toFixed(2)} s, ${Math.round(sent.readings / took_s)} readings/s (wanted 100,000); processor here ${((cpu_s * 1e6) / sent.readings).toFixed(1)} µs a reading, with its entries`,
  );
  const again = performance.now();
  notes.beginAnew(notes.latest() ?? '');
  valueOf(await onWay(reach, (way) => sendAll(way, sender)));
  print(`the same again, nothing new: ${((performance.now() - again) / 1000).toFixed(2)} s`);
  notes.close();
  database.close();
  server.psql('VACUUM (ANALYZE)');
  const size = (table: string): number => Number(server.psql(`SELECT pg_total_relation_size('axlewright.${table}')`));
  const parts = ['stretch', 'entry', 'summary'].map((table) => ({ table, bytes: size(table) }));
  print(
    `on disk with indexes: ${(size('stretch') / sent.readings).toFixed(1)} bytes a reading (wanted 10); a build ${parts.map(({ table, bytes }) => `${table} ${(bytes / builds / 1000).toFixed(1)} kB`).join(', ')}`,
  );
  await bareInsert(server, reach, print, took_s);
}

/** The same packed stretches put into a table without rules, keys or looking up, in loads as large: what the server itself needs. */
async function bareInsert(server: ArchiveServer, reach: Reach, print: Print, took_s: number): Promise<void> {
  server.psql('CREATE TABLE public.bare (body bytea); GRANT ALL ON public.bare TO axlewright_bench');
  const bare_s = valueOf(
    await onWay(reach, async (way) => {
      const bodies = await way<{ body: Buffer }[]>`SELECT body FROM stretch UNION ALL SELECT body FROM entry`;
      const began = performance.now();
      for (let from = 0; from < bodies.length; from += 500)
        await way`INSERT INTO public.bare ${way(bodies.slice(from, from + 500).map(({ body }) => ({ body })))}`;
      return ok((performance.now() - began) / 1000);
    }),
  );
  print(
    `a bare insert of the same bytes: ${bare_s.toFixed(2)} s; sending takes ${(took_s / bare_s).toFixed(1)} times that, packing and reading with it`,
  );
  const rows_s = valueOf(
    await onWay(reach, async (way) => {
      await way`CREATE TEMPORARY TABLE bare_row (seq bigint PRIMARY KEY, gauge int, t float8, at bigint, value float8, unit text, raw bytea)`;
      const rows = Array.from({ length: 20_000 }, (_, n) => ({
        seq: n,
        gauge: 1,
        t: n / 100,
        at: 1.7e12 + n * 10,
        value: n / 1000,
        unit: 'mm',
        raw: Buffer.from(`${n}\r`),
      }));
      const began = performance.now();
      for (let from = 0; from < rows.length; from += 5000)
        await way`INSERT INTO bare_row ${way(rows.slice(from, from + 5000))}`;
      return ok((performance.now() - began) / 1000);
    }),
  );
  print(`a bare insert of readings as rows: ${Math.round(20_000 / rows_s)} readings/s`);
}

async function opening(reach: Reach, print: Print): Promise<void> {
  const folder = benchFolder();
  const database = valueOf(openDatabase(folder, systemClock));
  const identity = valueOf(openIdentity(database, () => 'bench-b'));
  const took: number[] = [];
  for (let n = 0; n < 10; n += 1) {
    const began = performance.now();
    valueOf(await onWay(reach, (way) => fetchHome(way, { database, identity }, `many-${n}`)));
    took.push(performance.now() - began);
  }
  database.close();
  rmSync(folder, { recursive: true, force: true });
  print(
    `a foreign build opened, with connecting, every hash checked and written here: ${middleAndWorst(took)} ms (wanted 500)`,
  );
}

function middleAndWorst(took: readonly number[]): string {
  const sorted = took.toSorted((a, b) => a - b);
  return `${(sorted[Math.floor(sorted.length / 2)] ?? 0).toFixed(1)}, worst ${(sorted.at(-1) ?? 0).toFixed(1)}`;
}

const asked = [
  ['newest, no words', ''],
  ['a job number', '7311'],
  ['a common word', 'axle'],
  ['two words', 'axle lindgren'],
  ['part of a word', 'indgr'],
  ['two letters', 'rg'],
  ['a word nobody wrote', 'zzyzx'],
  ['misspelt', 'lindgern rear'],
] as const;

interface Finding {
  readonly server: ArchiveServer;
  readonly among: number;
  readonly reach: Reach;
}

/** Lines of the list made by the server from one that was sent, with invented names and numbers in them. */
async function finding({ server, among, reach }: Finding, print: Print): Promise<void> {
  server.psql(`
    SET search_path = axlewright, public;
    INSERT INTO build (id, sent_by) SELECT 'made-' || n, 1 FROM generate_series(1, ${among}) AS n;
    INSERT INTO summary (build, entries, sent_by, record, heading, words)
    SELECT build.number, 40, 1, jsonb_set(record, '{id}', to_jsonb(build.id)), name || ' axle job ' || build.number, words || E'\\n' || name || E'\\n' || build.number || E'\\n' || md5(build.id)
    FROM build, (SELECT record, words FROM summary WHERE words LIKE '%many-0%' LIMIT 1) AS one,
      LATERAL (SELECT (ARRAY['rear','front','centre','spare'])[1 + build.number % 4] || ' ' || (ARRAY['lindgren','moreau','kaya','okafor','novak','silva','brandt','ito'])[1 + build.number / 7 % 8] || substr(md5(build.number::text), 1, 2) AS name) AS made
    WHERE build.id LIKE 'made-%'`);
  server.psql('VACUUM (ANALYZE)');
  const size = Number(server.psql("SELECT pg_total_relation_size('axlewright.summary')"));
  print(`a line of the list with its indexes, among ${among}: ${(size / among / 1000).toFixed(1)} kB`);
  const way = valueOf(openWay(reach));
  for (const [what, words] of asked) {
    const took: number[] = [];
    let count = 0;
    for (let n = 0; n < 15; n += 1) {
      const began = performance.now();
      count = (await findBuilds(way, words, 50)).builds.length;
      took.push(performance.now() - began);
    }
    print(
      `found among ${among}, ${what}: ${count} builds, ${middleAndWorst(took)} ms (wanted ${what === 'misspelt' ? 150 : 50})`,
    );
  }
  await way.end();
}

/** Every bench has one entry to send, all at once; the server takes a hundred at a time, as it comes. */
async function manyBenches(reach: Reach, benches: number, print: Print): Promise<void> {
  let refused = 0;
  const began = performance.now();
  const send = async (number: number): Promise<void> => {
    for (let failures = 1; ; failures += 1) {
      const sent = await onWay(reach, (way) => oneEntry(way, number));
      if (sent.ok) return;
      refused += 1;
      await after(wait_ms(failures, Math.random()));
    }
  };
  await Promise.all(Array.from({ length: benches }, (_, n) => send(n)));
  print(
    `${benches} benches at once, one entry each: ${((performance.now() - began) / 1000).toFixed(1)} s until all was sent, ${refused} tries sent away for want of connections`,
  );
}

async function oneEntry(way: Way, number: number) {
  const greeted = await greet(way, { id: `bench-of-many-${number}`, name: `Bench ${number}`, key: 'k'.repeat(43) });
  if (!greeted.ok) return greeted;
  const { putLoad } = await import('../../src/main/archive/put.ts');
  const entry = {
    line: 1,
    id: `entry-of-${number}`,
    build: `build-of-${number}`,
    sha256: Buffer.alloc(32),
    wrote: null,
    place: 0,
    body: Buffer.from('x'),
    stretch: undefined,
    photo: undefined,
    certificate: undefined,
  };
  return ok(await putLoad(way, greeted.value.me, { entries: [entry], summaries: [] }));
}
