// A bench as a process of its own that writes builds and sends them, and may be killed at any moment; started again it goes on.
import { setTimeout as after } from 'node:timers/promises';
import { readAddress } from '../../../src/main/archive/address.ts';
import { openNotes } from '../../../src/main/archive/notes.ts';
import { senderOf } from '../../../src/main/archive/send.ts';
import { sendOn } from '../../../src/main/archive/sendOn.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { type Database, openDatabase } from '../../../src/main/store/database.ts';
import { openIdentity } from '../../../src/main/store/identity.ts';
import { valueOf } from '../bench/open.ts';
import { writeBuild } from './benchRecords.ts';
import { password } from './server.ts';

const [folder = '', bench = '', to = '', builds = '1', clockOff_h = '0'] = process.argv.slice(2);
const off_ms = Number(clockOff_h) * 3_600_000;
const clock = { ...systemClock, wall_ms: () => systemClock.wall_ms() + off_ms };

const database = valueOf(openDatabase(folder, clock));
const identity = valueOf(openIdentity(database, () => bench));
const reader = valueOf(openDatabase(folder, clock, { as: 'reader' }));
const notes = openNotes(folder);
const address = valueOf(readAddress(to, 'to'));
const ending = new AbortController();

const wholeBuilds = (of: Database): number =>
  Number(of.sql.prepare(`SELECT count(*) FROM notebook_entry WHERE id LIKE '${bench}-%-photo'`).pluck().get());

async function write(): Promise<void> {
  while (wholeBuilds(database) < Number(builds)) {
    // A name that no build has that was begun before the process was killed.
    const build = `${bench}-${process.pid}-${Math.round(performance.now())}`;
    writeBuild(database, {
      build,
      title: `Axle of ${bench}`,
      photo: Buffer.from(`photo of ${build}`),
      clockOff_h: Number(clockOff_h),
    });
    await after(20);
  }
}

const lastLine = (): unknown => database.sql.prepare('SELECT max(line) FROM notebook_entry').pluck().get();

async function untilSent(): Promise<void> {
  await write();
  while (notes.read(notes.latest() ?? '').line !== lastLine()) await after(50);
  ending.abort();
}

const { signal } = ending;
await Promise.all([
  untilSent(),
  sendOn(senderOf(reader, identity, notes), {
    signal,
    reach: { address, password },
    say: () => undefined,
    onSent: () => undefined,
  }),
]);
notes.close();
reader.close();
database.close();
