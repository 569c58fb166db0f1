import { closeSync, constants, openSync } from 'node:fs';
import { mkdtemp, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ReadStream } from 'node:tty';
import { hearing, type Hearing } from './hearing.ts';
import type { Line } from './cable.ts';
import { patientWriter, type PatientWriter } from './patientWriter.ts';
import { openTerminal } from './terminal.ts';

/** A cable plugged in: one pseudo-terminal, alive. */
interface Plugged {
  readonly path: string;
  readonly writer: PatientWriter;
  pull(): Promise<void>;
}

async function plugIn(heard: Hearing): Promise<Plugged> {
  const { master, path } = await openTerminal();
  // We keep the far side open too, so that the app may close its port and open it again without hanging us up.
  const kept = openSync(path, constants.O_RDWR | constants.O_NOCTTY);
  const reader = new ReadStream(master);
  reader.on('error', () => undefined);
  reader.on('data', (bytes: Buffer) => heard.tell(bytes));
  const writer = patientWriter(master);
  return {
    path,
    writer,
    async pull() {
      await writer.stop();
      closeSync(kept);
      const closed = new Promise<void>((resolve) => void reader.once('close', () => resolve()));
      reader.destroy();
      await closed;
    },
  };
}

/** A line on a pseudo-terminal behind a link in a folder of its own: a replugged cable is a new terminal under the old name. */
export async function servePty(): Promise<Line> {
  const folder = await mkdtemp(join(tmpdir(), 'axlewright-line-'));
  const name = join(folder, 'gauge');
  const heard = hearing();
  let plugged: Plugged | undefined;
  let lost_bytes = 0;

  async function replug(): Promise<void> {
    if (plugged !== undefined) return;
    plugged = await plugIn(heard);
    await symlink(plugged.path, name);
  }

  async function unplug(): Promise<void> {
    const was = plugged;
    plugged = undefined;
    if (was === undefined) return;
    await rm(name, { force: true });
    await was.pull();
    lost_bytes += was.writer.lost_bytes;
  }

  await replug();
  return {
    link: `serial:${name}`,
    async write(bytes) {
      if (plugged === undefined) lost_bytes += bytes.length;
      else await plugged.writer.write(bytes);
    },
    get lost_bytes() {
      return lost_bytes + (plugged?.writer.lost_bytes ?? 0);
    },
    onBytes: heard.on,
    unplug,
    replug,
    async end() {
      await unplug();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
