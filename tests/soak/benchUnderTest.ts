import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import WebSocket from 'ws';
import { protocolFor } from '../../src/main/hosts/loopback/guard.ts';
import { type Carrier, createClient } from '../../src/shared/contract/client.ts';
import type { BenchClient } from '../../src/shared/contract/contract.ts';

const root = resolve(import.meta.dirname, '..', '..');

/** The whole bench as a program of its own, as `npm start` runs it in a browser. */
export interface BenchUnderTest {
  readonly process: ChildProcess;
  readonly port: number;
  readonly token: string;
  /** From start to link, ms. */
  readonly start_ms: number;
  /** What it said to the person at the terminal. */
  said(): string;
  /** What it takes now, where the system tells (Linux). */
  weight(): Weight | undefined;
  client(): Promise<BenchClient>;
  socket(): Promise<WebSocket>;
  /** Its code or signal, once it has ended. */
  readonly ended: Promise<number | string>;
}

export async function startBench(folder: string): Promise<BenchUnderTest> {
  const began = performance.now();
  const words = [
    '--expose-gc',
    '--import',
    './tests/soak/jumpingClock.ts',
    '--import',
    './tests/soak/liveMemory.ts',
    'src/main/cli/axlewright.ts',
    'open',
    '--browser',
    '--data',
    folder,
    '--json',
  ];
  // Without a screen no browser is opened.
  const { DISPLAY: _x, WAYLAND_DISPLAY: _w, ...env } = process.env;
  const child = spawn(process.execPath, words, { cwd: root, env, stdio: ['ignore', 'pipe', 'pipe', 'pipe'] });
  let said = '';
  let live = 0;
  child.stdio[3]?.on('data', (bytes: Buffer) => (live = Number(bytes.toString('utf8').trim().split('\n').at(-1))));
  child.stderr?.setEncoding('utf8').on('data', (text: string) => (said += text));
  const ended = once(child, 'exit').then(([code, signal]) => (code ?? signal) as number | string);
  const link = await Promise.race([
    linkFrom(child),
    ended.then((end) => Promise.reject(new Error(`the bench did not start (${end}): ${said}`))),
  ]);
  const { port, hash } = new URL(link);
  const token = new URLSearchParams(hash.slice(1)).get('token') ?? '';
  const socket = (): Promise<WebSocket> => openSocket(Number(port), token);
  return {
    process: child,
    port: Number(port),
    token,
    start_ms: performance.now() - began,
    said: () => said,
    weight: () => weightOf(child.pid ?? 0, live),
    socket,
    client: async () => createClient(carrierOn(await socket())),
    ended,
  };
}

async function linkFrom(child: ChildProcess): Promise<string> {
  let written = '';
  for await (const text of child.stdout?.setEncoding('utf8') ?? []) {
    written += String(text);
    if (written.includes('\n')) break;
  }
  return (JSON.parse(written) as { link: string }).link;
}

async function openSocket(port: number, token: string): Promise<WebSocket> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/bench`, protocolFor(token), {
    origin: `http://127.0.0.1:${port}`,
    handshakeTimeout: 120_000,
  });
  socket.on('error', () => undefined);
  await once(socket, 'open');
  return socket;
}

function carrierOn(socket: WebSocket): Carrier {
  return {
    send: (text) => socket.send(text),
    onText: (listener) => void socket.on('message', (data: Buffer) => listener(data.toString('utf8'))),
    onPresence: (listener) => {
      listener(socket.readyState === socket.OPEN);
      socket.on('close', () => listener(false));
      return () => undefined;
    },
    close: () => socket.terminate(),
  };
}

export interface Weight {
  /** What the process holds of the system. */
  readonly rss_MB: number;
  /** What of it was still in use after the last collection; undefined in the first seconds. */
  readonly live_MB?: number;
  readonly descriptors: number;
}

function weightOf(pid: number, live_bytes: number): Weight | undefined {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const rss_kB = Number(/VmRSS:\s*(\d+)/u.exec(status)?.[1]);
    const descriptors = readdirSync(join('/proc', String(pid), 'fd')).length;
    return { rss_MB: rss_kB / 1024, descriptors, ...(live_bytes === 0 ? {} : { live_MB: live_bytes / 2 ** 20 }) };
  } catch {
    return undefined;
  }
}
