import { once } from 'node:events';
import { closeSync, existsSync, readFileSync, readlinkSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, it } from 'vitest';
import { lineKindHere, serveLine, type Line } from '../../../hardware-sim/lines/line.ts';
import { asFastAsPossible, play, realPace } from '../../../hardware-sim/lines/play.ts';
import { openTerminal } from '../../../hardware-sim/lines/terminal.ts';
import { guardedOptions } from '../../support/guardedPort.ts';

const endings: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of endings.splice(0).reverse()) await end();
});

const served = async (kind: 'pty' | 'tcp'): Promise<Line> => {
  const line = await serveLine({ kind });
  endings.push(() => line.end());
  return line;
};

const pathOf = (line: Line): string => line.link.slice('serial:'.length);

interface Heard {
  text(): string;
  readonly closed: Promise<unknown>;
  send(text: string): void;
}

async function opened(path: string): Promise<Heard & { close(): Promise<void> }> {
  const port = new SerialPort({ path, baudRate: 115_200, autoOpen: false, ...guardedOptions });
  let text = '';
  port.on('data', (bytes: Buffer) => (text += bytes.toString('latin1')));
  port.on('error', () => undefined);
  const closed = once(port, 'close').then(([cause]) => cause as unknown);
  await new Promise<void>((resolve, reject) => port.open((error) => (error === null ? resolve() : reject(error))));
  const close = (): Promise<void> => new Promise((resolve) => (port.isOpen ? port.close(() => resolve()) : resolve()));
  endings.push(close);
  return { text: () => text, closed, send: (out) => void port.write(out), close };
}

async function connected(line: Line): Promise<Heard> {
  const port = Number(new URL(line.link).port);
  const socket: Socket = connect(port, '127.0.0.1');
  let text = '';
  socket.on('data', (bytes: Buffer) => (text += bytes.toString('latin1')));
  socket.on('error', () => undefined);
  endings.push(() => socket.destroy());
  await once(socket, 'connect');
  return { text: () => text, closed: once(socket, 'close'), send: (out) => void socket.write(out) };
}

async function until(holds: () => boolean): Promise<void> {
  for (let waited_ms = 0; !holds() && waited_ms < 10_000; waited_ms += 5) await sleep(5);
  expect(holds()).toBe(true);
}

const numbered = (count: number, rate_Hz: number) =>
  Array.from({ length: count }, (_, index) => ({
    t_s: index / rate_Hz,
    bytes: Buffer.from(`+0.${String(index).padStart(4, '0')} mm\r\n`),
  }));
const textOf = (chunks: ReturnType<typeof numbered>): string => chunks.map((chunk) => chunk.bytes.toString()).join('');

const onLinux = process.platform === 'linux';

describe.runIf(onLinux)('a line on a pseudo-terminal, opened with serialport', () => {
  it('carries 1,000 lines in order without loss, as fast as it can', async () => {
    const line = await served('pty');
    const app = await opened(pathOf(line));
    const sending = numbered(1000, 100);
    await play(sending, line, asFastAsPossible());
    await until(() => app.text().length >= textOf(sending).length);
    expect(app.text()).toBe(textOf(sending));
    expect(line.lost_bytes).toBe(0);
  });

  it('carries 1,000 lines in order at 1,000 a second of the real clock', async () => {
    const line = await served('pty');
    const app = await opened(pathOf(line));
    const sending = numbered(1000, 1000);
    const began_ms = performance.now();
    await play(sending, line, realPace());
    const took_ms = performance.now() - began_ms;
    await until(() => app.text().length >= textOf(sending).length);
    expect(app.text()).toBe(textOf(sending));
    // Never early: the last line is due 999 ms after the first.
    expect(took_ms).toBeGreaterThan(995);
  });

  it('hears what the app sends', async () => {
    const line = await served('pty');
    let heard = '';
    line.onBytes((bytes) => (heard += Buffer.from(bytes).toString('latin1')));
    const app = await opened(pathOf(line));
    app.send('D\r');
    await until(() => heard === 'D\r');
  });

  it('lets the app close its port and open it again, and drops what was sent to nobody', async () => {
    const line = await served('pty');
    const first = await opened(pathOf(line));
    await first.close();
    const unheard = Buffer.alloc(60_000, 'x');
    await line.write(unheard);
    expect(line.lost_bytes).toBeGreaterThan(30_000);
    const second = await opened(pathOf(line));
    await line.write(Buffer.from('+1.0 mm\r\n'));
    await until(() => second.text().endsWith('+1.0 mm\r\n'));
    expect(second.text().length).toBeLessThan(100);
  });

  it('hangs up when unplugged and comes back under the same link', async () => {
    const line = await served('pty');
    const path = pathOf(line);
    const before = await opened(path);
    await line.unplug();
    expect(await before.closed).toMatchObject({ disconnected: true });
    expect(existsSync(path)).toBe(false);
    await expect(opened(path)).rejects.toThrow(/No such file/);
    await line.write(Buffer.from('lost'));
    expect(line.lost_bytes).toBe(4);
    await line.replug();
    expect(pathOf(line)).toBe(path);
    const after = await opened(path);
    await line.write(Buffer.from('+2.0 mm\r\n'));
    await until(() => after.text() === '+2.0 mm\r\n');
  });

  it('can be unplugged in mid-flow, eight times over', async () => {
    const line = await served('pty');
    for (let time = 0; time < 8; time += 1) {
      const stop = new AbortController();
      const flowing = play(numbered(100_000, 2000), line, realPace(), stop.signal);
      await sleep(20);
      await line.unplug();
      stop.abort();
      await flowing;
      await line.replug();
    }
    const app = await opened(pathOf(line));
    await line.write(Buffer.from('alive'));
    await until(() => app.text() === 'alive');
  });

  it('leaves nothing behind when it ends', async () => {
    const line = await serveLine({ kind: 'pty' });
    const target = readlinkSync(pathOf(line));
    expect(target).toMatch(/^\/dev\/pts\/\d+$/);
    await line.end();
    expect(existsSync(pathOf(line))).toBe(false);
  });

  it.each(['library', 'perl'] as const)('gets a pseudo-terminal by %s', async (way) => {
    const { path, master } = await openTerminal(way);
    expect(path).toMatch(/^\/dev\/pts\/\d+$/);
    expect(existsSync(path)).toBe(true);
    // The descriptor's flags, octal, as the kernel lists them: 02000000 is close-on-exec.
    const flags = /flags:\s*([0-7]+)/u.exec(readFileSync(`/proc/self/fdinfo/${master}`, 'utf8'))?.[1] ?? '0';
    expect(Number.parseInt(flags, 8) & 0o2_000_000).not.toBe(0);
    closeSync(master);
  });
});

describe('a line on TCP', () => {
  it('carries 1,000 lines in order, both ways, and to every peer', async () => {
    const line = await served('tcp');
    expect(line.link).toMatch(/^tcp:\/\/127\.0\.0\.1:\d+$/);
    const peers = [await connected(line), await connected(line)];
    let heard = '';
    line.onBytes((bytes) => (heard += Buffer.from(bytes).toString()));
    peers[0]?.send('D\r');
    await until(() => heard === 'D\r');
    const sending = numbered(1000, 100);
    await play(sending, line, asFastAsPossible());
    for (const peer of peers) {
      await until(() => peer.text().length >= textOf(sending).length);
      expect(peer.text()).toBe(textOf(sending));
    }
  });

  it('closes when unplugged, refuses, and comes back on the same port', async () => {
    const line = await served('tcp');
    const before = await connected(line);
    await line.unplug();
    await before.closed;
    await expect(connected(line)).rejects.toThrow(/ECONNREFUSED/);
    await line.replug();
    const after = await connected(line);
    await line.write(Buffer.from('back'));
    await until(() => after.text() === 'back');
  });
});

describe('the kind of line that this system can serve', () => {
  it('is a pseudo-terminal on Linux and TCP elsewhere', async () => {
    expect(lineKindHere()).toBe(onLinux ? 'pty' : 'tcp');
    const line = await serveLine();
    endings.push(() => line.end());
    expect(line.link).toMatch(onLinux ? /^serial:\// : /^tcp:\/\//);
  });
});
