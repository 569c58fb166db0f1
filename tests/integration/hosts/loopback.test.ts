import { valueOf } from '../../support/bench/open.ts';
import { once } from 'node:events';
import { request } from 'node:http';
import { connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import WebSocket from 'ws';
import { protocolFor } from '../../../src/main/hosts/loopback/guard.ts';
import { type LoopbackHost, openLoopback } from '../../../src/main/hosts/loopback/host.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { emptyPage } from '../../support/bench/carriers.ts';
import { benchInNewFolder } from '../../support/bench/open.ts';

let service: BenchService;
let host: LoopbackHost;
beforeAll(async () => {
  service = benchInNewFolder();
  host = valueOf(await openLoopback({ service, files: emptyPage() }));
});
afterAll(async () => {
  await host.close();
  await service.close();
});

/** A request as any program on this machine could make it: path and headers exactly as given. */
function ask(path: string, headers: Record<string, string> = {}, method = 'GET') {
  return new Promise<{
    readonly status: number;
    readonly headers: NodeJS.Dict<string | string[]>;
    readonly text: string;
  }>((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port: host.port, path, method, headers }, (answer) => {
      let text = '';
      answer.on('data', (chunk: Buffer) => (text += chunk.toString('utf8')));
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text }));
    });
    asked.on('error', reject);
    asked.end();
  });
}

function knock(options: {
  readonly protocol?: string;
  readonly origin?: string;
  readonly host?: string;
  readonly path?: string;
}): Promise<'open' | 'refused'> {
  return new Promise((resolve) => {
    const socket = new WebSocket(
      `ws://127.0.0.1:${host.port}${options.path ?? '/bench'}`,
      options.protocol === undefined ? [] : [options.protocol],
      {
        ...(options.origin === undefined ? {} : { origin: options.origin }),
        headers: options.host === undefined ? {} : { host: options.host },
      },
    );
    socket.on('open', () => {
      socket.terminate();
      resolve('open');
    });
    socket.on('error', () => resolve('refused'));
  });
}

describe('the loopback host', () => {
  it('serves the screens with the strict policy, to its own name only', async () => {
    const page = await ask('/');
    expect(page).toMatchObject({ status: 200 });
    expect(page.text).toContain('Axlewright');
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.headers['content-security-policy']).toContain(`ws://127.0.0.1:${host.port}`);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect((await ask('/', { host: 'evil.example' })).status).toBe(403);
  });

  it.each(['/../package.json', '/..%2f..%2fetc/passwd', '//etc/passwd', '/bench', '/index.html/..'])(
    'has nothing at %s',
    async (path) => {
      expect((await ask(path)).status).toBe(404);
    },
  );

  it('takes no other method', async () => {
    expect((await ask('/', {}, 'POST')).status).toBe(405);
  });

  it('listens on the loopback address and on no other', async () => {
    expect(host.link.startsWith('http://127.0.0.1:')).toBe(true);
    // The token is in the fragment, which browsers never send.
    expect(new URL(host.link).hash).toBe(`#token=${host.token}`);
  });

  it('opens the bench to its own page with the token', async () => {
    const origin = `http://127.0.0.1:${host.port}`;
    expect(await knock({ protocol: protocolFor(host.token), origin })).toBe('open');
  });

  it.each([
    ['without a token', { origin: 'own' }],
    ['with a wrong token', { origin: 'own', protocol: protocolFor('guess') }],
    ['from another page', { origin: 'https://evil.example', protocol: 'own' }],
    ['from no page', { protocol: 'own' }],
    ['under another name', { origin: 'own', protocol: 'own', host: 'evil.example' }],
    ['at another door', { origin: 'own', protocol: 'own', path: '/other' }],
  ])('refuses %s', async (_what, given: { origin?: string; protocol?: string; host?: string; path?: string }) => {
    const own = { origin: `http://127.0.0.1:${host.port}`, protocol: protocolFor(host.token) };
    expect(
      await knock({
        ...given,
        ...(given.origin === 'own' ? { origin: own.origin } : {}),
        ...(given.protocol === 'own' ? { protocol: own.protocol } : {}),
      }),
    ).toBe('refused');
  });
});

/** A request as text, on a socket of its own. */
const dial = (text: string): Promise<Socket> =>
  new Promise((resolve) => {
    const socket = connect(host.port, '127.0.0.1', () => socket.write(text, () => resolve(socket)));
    socket.on('error', () => undefined);
  });

const upgrade = (more: string): string =>
  `GET /bench HTTP/1.1\r\nHost: 127.0.0.1:${host.port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n${more}\r\n`;

it('opens 32 pages at a time, and another when one has gone', async () => {
  const open = (): Promise<WebSocket | undefined> => {
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/bench`, protocolFor(host.token), {
      origin: `http://127.0.0.1:${host.port}`,
    });
    return new Promise((resolve) => {
      socket.once('open', () => resolve(socket)).once('error', () => resolve(undefined));
    });
  };
  const pages: WebSocket[] = [];
  await expect
    .poll(
      async () => {
        const page = await open();
        if (page !== undefined) pages.push(page);
        return page === undefined;
      },
      { interval: 1, timeout: 20_000 },
    )
    .toBe(true);
  expect(pages.length).toBeGreaterThan(20);
  expect(pages.length).toBeLessThanOrEqual(32);
  pages.pop()?.terminate();
  await expect.poll(async () => (await open()) !== undefined, { timeout: 10_000 }).toBe(true);
  for (const page of pages) page.terminate();
});

describe('nobody outside ends the bench', () => {
  it('by knocks that reset at once, without a token', async () => {
    const ended: unknown[] = [];
    const caught = (error: unknown): void => void ended.push(error);
    process.on('uncaughtException', caught);
    for (let n = 0; n < 300; n += 1) {
      const socket = await dial(upgrade('Origin: https://elsewhere.example\r\n'));
      socket.resetAndDestroy();
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
    process.off('uncaughtException', caught);
    expect(ended).toEqual([]);
    expect((await ask('/')).status).toBe(200);
  });

  it('by a page that asks and never reads', async () => {
    const origin = `http://127.0.0.1:${host.port}`;
    const title = 'x'.repeat(190);
    const { id: build } = valueOf(await service.answers['builds.start']({ title, technician: 'A. Tester' }));
    for (let n = 0; n < 60; n += 1) {
      const deed = { kind: 'noted', topic: 'note', text: 'y'.repeat(3900) } as const;
      valueOf(await service.answers['builds.write']({ build, by: 'A. Tester', deed }));
    }
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/bench`, protocolFor(host.token), { origin });
    await once(socket, 'open');
    socket.pause();
    const asked = JSON.stringify({ id: 1, ask: 'builds.read', with: { build } });
    // Each answer is a quarter of a megabyte; it goes on asking until it is cut off, and would have 100 MB waiting for it.
    let most_bytes = 0;
    for (let n = 0; n < 400; n += 1) socket.send(asked);
    while (socket.readyState === socket.OPEN) {
      socket.send(asked);
      most_bytes = Math.max(most_bytes, process.memoryUsage().arrayBuffers);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    expect(most_bytes).toBeLessThan(90_000_000);
    expect((await ask('/')).status).toBe(200);
  });
});

it('answers nothing that is still on its way when it ends, and calls none of it a fault', async () => {
  const ending = benchInNewFolder();
  const door = valueOf(await openLoopback({ service: ending, files: emptyPage() }));
  const faults: unknown[] = [];
  ending.hear('bench-fault', (fault) => faults.push(fault));
  const origin = `http://127.0.0.1:${door.port}`;
  const socket = new WebSocket(`ws://127.0.0.1:${door.port}/bench`, protocolFor(door.token), { origin });
  await once(socket, 'open');
  const answered = once(socket, 'message');
  for (let id = 0; id < 500; id += 1) socket.send(JSON.stringify({ id, ask: 'builds.list', with: {} }));
  await answered;
  await door.close();
  expect(await ending.close()).toMatchObject({ ok: true });
  await new Promise((resolve) => setTimeout(resolve, 200));
  expect(faults).toEqual([]);
});
