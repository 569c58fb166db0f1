import { rename } from 'node:fs/promises';
import { writeFileSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import type { BenchClient } from '../../src/shared/contract/contract.ts';
import type { BenchUnderTest } from './benchUnderTest.ts';
import type { StandGauges } from './standGauges.ts';

/** What a soak does to a bench while it works; each ends by itself, and the bench must go on. */
export interface Scene {
  readonly bench: BenchUnderTest;
  readonly client: BenchClient;
  readonly stand: StandGauges;
  readonly folder: string;
  /** The folder lies on a disk of its own that may be filled. */
  readonly ownDisk: boolean;
  readonly random: () => number;
  readonly faults: string[];
  /** How long it took until it was said that the data folder is away, ms. */
  readonly noticed_ms: number[];
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms));

export const mischiefs: Readonly<Record<string, (scene: Scene) => Promise<void>>> = {
  async suspended({ bench, random }) {
    bench.process.kill('SIGSTOP');
    await pause(300 + 2500 * random());
    bench.process.kill('SIGCONT');
    await pause(500);
  },
  /** The wall clock jumps while gauges are read and entries written; their order is that of the lines. */
  async clockJumps({ bench, random }) {
    for (let jump = 0; jump < 3; jump += 1) {
      bench.process.kill('SIGUSR2');
      await pause(300 + 700 * random());
    }
  },
  async unplugged({ stand, random }) {
    await stand.unplug(Math.floor(4 * random()), 200 + 2000 * random());
  },
  async babbling({ stand, random }) {
    const noise = Buffer.from(Array.from({ length: 20_000 }, () => Math.floor(256 * random())));
    await stand.babble(Math.floor(4 * random()), noise);
  },
  /** Knocks without a token: reset at once, half said, or never ended. */
  async knocks({ bench: { port }, random }) {
    const words = `GET /bench HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\nOrigin: https://elsewhere.example\r\n`;
    const sockets = Array.from({ length: 150 }, () => {
      const socket = connect(port, '127.0.0.1', () => {
        const how = random();
        if (how < 0.5) socket.write(`${words}\r\n`, () => socket.resetAndDestroy());
        else socket.write(words.slice(0, Math.floor(words.length * random())));
      });
      return socket.on('error', () => undefined);
    });
    await pause(1500);
    for (const socket of sockets) socket.destroy();
  },
  /** A page that asks for much and reads nothing. */
  async deafPage({ bench }) {
    const socket = await bench.socket();
    socket.pause();
    for (let id = 0; id < 300 && socket.readyState === socket.OPEN; id += 1)
      socket.send(JSON.stringify({ id, ask: 'builds.list', with: {} }));
    await pause(3000);
    socket.terminate();
  },
  async folderAway({ client, folder, faults, noticed_ms }) {
    const data = join(folder, 'data');
    await rename(data, `${data}-away`);
    const written = await client.ask('builds.start', { title: 'Never on disk', technician: 'Soak' });
    if (written.ok) faults.push('a build was called recorded while the data folder was away');
    const began = performance.now();
    while (!(await isSaid(client, 'place-gone')) && performance.now() - began < 30_000) await pause(20);
    noticed_ms.push(performance.now() - began);
    if (!(await isSaid(client, 'place-gone'))) faults.push('the data folder was away and nothing was said');
    await rename(`${data}-away`, data);
    await pause(1200);
  },
  async diskFull({ client, folder, ownDisk, faults }) {
    if (!ownDisk) return;
    const ballast = join(folder, 'ballast');
    fill(ballast);
    await pause(1500);
    const written = await client.ask('builds.start', { title: 'y'.repeat(200), technician: 'Soak' });
    rmSync(ballast);
    if (!written.ok && written.problem.kind === 'defect') faults.push('a full disk was met as a defect');
    await pause(1500);
  },
};

async function isSaid(client: BenchClient, kind: string): Promise<boolean> {
  const about = await client.ask('bench.about', {});
  return about.ok && about.value.warnings.some((warning) => warning.kind === kind);
}

/** Writes until the disk takes no more. */
function fill(file: string): void {
  const piece = Buffer.alloc(1024 * 1024);
  try {
    for (;;) writeFileSync(file, piece, { flag: 'a' });
  } catch {
    // Full, as was meant.
  }
}
