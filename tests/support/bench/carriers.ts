import { valueOf } from './open.ts';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { MessageChannel } from 'node:worker_threads';
import WebSocket from 'ws';
import { protocolFor } from '../../../src/main/hosts/loopback/guard.ts';
import { openLoopback } from '../../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../../src/main/hosts/pageFiles.ts';
import { type Carrier, createClient } from '../../../src/shared/contract/client.ts';
import type { BenchClient, BenchService } from '../../../src/shared/contract/contract.ts';
import { attend } from '../../../src/shared/contract/server.ts';

/** One way to reach a bench, opened and closed by the test. */
export interface Reached {
  readonly client: BenchClient;
  /** Sends a text as it is, and hears every text back: what a hostile or outdated page could do. */
  readonly raw: { send(text: string): void; next(): Promise<string> };
  close(): Promise<void>;
}

export const transports: Readonly<Record<string, (service: BenchService) => Promise<Reached>>> = {
  'in memory': inMemory,
  'a message port': overMessagePort,
  'the loopback WebSocket': overWebSocket,
};

async function inMemory(service: BenchService): Promise<Reached> {
  const listeners: ((text: string) => void)[] = [];
  const attendant = attend(service, (text) => queueMicrotask(() => spread(listeners, text)));
  const send = (text: string): void => queueMicrotask(() => void attendant.receive(text));
  const { carrier, raw } = ends(send, listeners);
  return { client: createClient(carrier), raw, close: async () => attendant.hangUp() };
}

/** What a utility process does: texts through a port, cloned on the way. */
async function overMessagePort(service: BenchService): Promise<Reached> {
  const { port1, port2 } = new MessageChannel();
  const listeners: ((text: string) => void)[] = [];
  const attendant = attend(service, (text) => port1.postMessage(text));
  port1.on('message', (text: string) => void attendant.receive(text));
  port2.on('message', (text: string) => spread(listeners, text));
  const { carrier, raw } = ends((text) => port2.postMessage(text), listeners);
  return {
    client: createClient(carrier),
    raw,
    close: async () => {
      attendant.hangUp();
      port1.close();
      port2.close();
    },
  };
}

async function overWebSocket(service: BenchService): Promise<Reached> {
  const host = valueOf(await openLoopback({ service, files: emptyPage() }));
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}/bench`, protocolFor(host.token), {
    origin: `http://127.0.0.1:${host.port}`,
  });
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  const listeners: ((text: string) => void)[] = [];
  socket.on('message', (data: Buffer) => spread(listeners, data.toString('utf8')));
  const { carrier, raw } = ends((text) => socket.send(text), listeners);
  return {
    client: createClient(carrier),
    raw,
    close: async () => {
      socket.terminate();
      await host.close();
    },
  };
}

const spread = (listeners: readonly ((text: string) => void)[], text: string): void => {
  for (const listener of listeners) listener(text);
};

function ends(
  send: (text: string) => void,
  listeners: ((text: string) => void)[],
): { carrier: Carrier; raw: Reached['raw'] } {
  const carrier: Carrier = {
    send,
    onText: (listener) => void listeners.push(listener),
    onPresence: (listener) => {
      listener(true);
      return () => undefined;
    },
    close: () => undefined,
  };
  const next = (): Promise<string> =>
    new Promise((resolve) => {
      const once = (text: string): void => {
        listeners.splice(listeners.indexOf(once), 1);
        resolve(text);
      };
      listeners.push(once);
    });
  return { carrier, raw: { send, next } };
}

/** The least page a host can serve. */
export function emptyPage(): ReadonlyMap<string, string> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-page-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Axlewright</title>');
  const files = listPageFiles(folder);
  if (!files.ok) throw new Error(files.problem.sentence);
  return files.value;
}
