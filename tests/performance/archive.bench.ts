import { rmSync } from 'node:fs';
import { loadavg } from 'node:os';
import { readAddress } from '../../src/main/archive/address.ts';
import { onWay, type Reach } from '../../src/main/archive/connect.ts';
import { fetchHome } from '../../src/main/archive/fetchHome.ts';
import { migrate } from '../../src/main/archive/migrate.ts';
import { openNotes } from '../../src/main/archive/notes.ts';
import { sendAll, senderOf } from '../../src/main/archive/send.ts';
import { systemClock } from '../../src/main/clock.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import { openIdentity, readIdentity } from '../../src/main/store/identity.ts';
import { ok } from '../../src/shared/basics/result.ts';
import { benchFolder, withRecords } from '../support/archive/benchRecords.ts';
import { type ArchiveServer, archiveServer, benchRole, password, postgresBin } from '../support/archive/server.ts';
import { valueOf } from '../support/bench/open.ts';
import { finding } from './archive/finding.ts';
import { manyBenches } from './archive/manyBenches.ts';
import { manyBuilds } from './archive/manyBuilds.ts';
import { spreadOf } from './archive/times.ts';

export const takesWords = true;

type Print = (line: string) => void;

/** Rocking sessions of a build: 394 rows each. */
const sessions = 5;

/**
 * The archive: `npm run bench archive [BUILDS to send] [BUILDS to find among] [BENCHES]`, 200, 10,000 and 500 without words; with 0 a part is left out. Against
 * a PostgreSQL of its own with default settings. The readings are those of a simulated hand; what they pack to is theirs.
 */
export default async function bench(print: Print, words: readonly string[]): Promise<void> {
  if (postgresBin() === undefined) return print('there is no PostgreSQL here: nothing was measured');
  const [builds = 200, among = 10_000, benches = 500] = words.map(Number);
  const server = await archiveServer({ benches: Math.max(3, benches) });
  const folder = benchFolder();
  const reachAs = (role: string): Reach => ({ address: valueOf(readAddress(server.to(role), 'to')), password });
  try {
    valueOf(await onWay(reachAs('archive_owner'), (way) => migrate(way)));
    await sending({ server, folder, builds, reach: reachAs(benchRole(1)) }, print);
    await opening(reachAs(benchRole(2)), print);
    if (among > 0) await finding({ server, among, reach: reachAs(benchRole(2)) }, print);
    if (benches > 0) await manyBenches((number) => reachAs(benchRole(number)), benches, print);
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
  const each = withRecords(folder, 'bench-a', (database) => manyBuilds(database, builds, sessions));
  const database = valueOf(openDatabase(folder, systemClock, { as: 'reader' }));
  const notes = openNotes(folder);
  const sender = senderOf(database, valueOf(readIdentity(database)), notes);
  globalThis.gc?.();
  const begun = { ms: performance.now(), cpu: process.cpuUsage(), rss: process.memoryUsage.rss() };
  let most = begun.rss;
  const onTaken = (): void => void (most = Math.max(most, process.memoryUsage.rss()));
  const sent = valueOf(await onWay(reach, (way) => sendAll(way, sender, { onTaken })));
  const took_s = (performance.now() - begun.ms) / 1000;
  const { user, system } = process.cpuUsage(begun.cpu);
  const [each_us, load] = [(user + system) / sent.readings, loadavg()[0] ?? 0];
  print(
    `${builds} builds of ${each} readings sent, ${sent.readings} readings and ${sent.entries} entries: ${took_s.toFixed(2)} s, ${Math.round(sent.readings / took_s)} readings/s (wanted 100,000), the machine's load ${load.toFixed(1)}; processor here ${each_us.toFixed(1)} µs a reading, with its entries`,
  );
  print(
    `memory of the sender: ${(begun.rss / 1e6).toFixed(0)} MB before, ${(most / 1e6).toFixed(0)} at most while it sent, ${(process.memoryUsage.rss() / 1e6).toFixed(0)} after`,
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
  print(`a foreign build opened, with connecting, every hash checked and written here: ${spreadOf(took)}, wanted 500`);
}
