import { randomBytes } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { type WebSocket, WebSocketServer } from 'ws';
import type { BenchService } from '../../../shared/contract/contract.ts';
import { largestMessage_bytes } from '../../../shared/contract/message.ts';
import { attend } from '../../../shared/contract/server.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { fileFor, fileHeaders, type PageFiles, securityHeaders } from '../policy.ts';
import { isOwnHost, mayEnter, protocolFor } from './guard.ts';

export interface LoopbackHost {
  /** The link to open, with this run's token in its fragment, which is never sent over the wire. */
  readonly link: string;
  readonly port: number;
  readonly token: string;
  close(): Promise<void>;
}

interface LoopbackOptions {
  readonly service: BenchService;
  readonly files: PageFiles;
  /** 0 takes any free port. */
  readonly port?: number;
  /** Told how many pages are open, whenever that changes. */
  readonly onPages?: (open: number) => void;
}

/**
 * Serves the screens and the bench on 127.0.0.1 only, for machines without Electron, for tests and for a second
 * window. A WebSocket is let in only with own host, own origin and the token of this run. Fails when the port is taken.
 */
export async function openLoopback({
  service,
  files,
  port: wanted = 0,
  onPages = () => undefined,
}: LoopbackOptions): Promise<Result<LoopbackHost>> {
  const token = randomBytes(24).toString('base64url');
  const server = createServer(patience, (request, response) => servePage(request, response, files, portOf()));
  const sockets = new WebSocketServer({
    noServer: true,
    perMessageDeflate: false,
    // One message at a time: gauges and other pages are heard between two questions, however many came at once.
    allowSynchronousEvents: false,
    maxPayload: largestMessage_bytes,
    handleProtocols: () => protocolFor(token),
  });
  // So many descriptors are left to gauges and records whoever knocks, and however often.
  server.maxConnections = mostConnections;
  const attendants = attendantsTold(onPages);
  const portOf = (): number => (server.address() as AddressInfo).port;

  server.on('upgrade', (request, socket, head) => {
    // Node takes its own listener off before this: a knock that resets at once would end the bench.
    socket.on('error', () => socket.destroy());
    const protocols = (request.headers['sec-websocket-protocol'] ?? '').split(',').map((one) => one.trim());
    const knock = { host: request.headers.host, origin: request.headers.origin, protocols };
    if (request.url !== '/bench' || !mayEnter(knock, portOf(), token)) return turnAway(socket, '403 Forbidden');
    if (sockets.clients.size >= mostPages) return turnAway(socket, '503 Service Unavailable');
    sockets.handleUpgrade(request, socket, head, (webSocket) => connect(webSocket, service, attendants));
  });

  const refused = await listening(server, wanted);
  if (refused !== undefined) return fail(portRefused(wanted, refused));
  // Later ones (no descriptor left for a new connection) pass: whoever knocked tries again.
  server.on('error', (error) => service.defect('the door of the bench', error));
  const port = portOf();
  return ok({
    link: `http://127.0.0.1:${port}/#token=${token}`,
    port,
    token,
    close: () =>
      new Promise((resolve) => {
        // Nothing that is still on its way is answered by a bench that ends.
        attendants.hangUp();
        for (const webSocket of sockets.clients) webSocket.terminate();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  });
}

/** Whoever has not said within this what it wants is hung up on; a browser says it at once. */
const patience = { headersTimeout: 10_000, requestTimeout: 30_000, connectionsCheckingInterval: 5000 };
/** Knocks at one time; a browser opens six for a page. */
const mostConnections = 2000;
/** Pages at one time: windows, a tablet, and those that a browser has not closed yet. Every news goes out to each of them. */
const mostPages = 32;

const turnAway = (socket: Duplex, status: string): void =>
  void socket.end(`HTTP/1.1 ${status}\r\nconnection: close\r\n\r\n`);

/** Listens on the loopback address alone; gives what went wrong. */
const listening = (server: Server, port: number): Promise<Error | undefined> =>
  new Promise((resolve) => {
    server.once('error', resolve);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', resolve);
      resolve(undefined);
    });
  });

function portRefused(port: number, error: Error & { readonly code?: string }): Problem {
  const remedy = 'Give another number with --port, or leave it out and a free one is taken.';
  if (error.code === 'EADDRINUSE')
    return { kind: 'port-taken', sentence: `Port ${port} is in use by another program.`, remedy };
  const sentence = `Port ${port} could not be opened: ${error.message}.`;
  return { kind: 'port-refused', sentence, remedy };
}

/**
 * What may wait for a page that does not read, in bytes: four of the largest messages. A page that falls further behind is cut
 * off; it comes back by itself and asks for everything anew, where the bench would have grown until it died.
 */
const mostBehind_bytes = 4 * largestMessage_bytes;

type Attendant = ReturnType<typeof attend>;

/** Those who attend to the pages that are open. */
interface Attendants {
  come(attendant: Attendant): void;
  go(attendant: Attendant): void;
  hangUp(): void;
}

function attendantsTold(onPages: (open: number) => void): Attendants {
  const all = new Set<Attendant>();
  return {
    come(attendant) {
      all.add(attendant);
      onPages(all.size);
    },
    go(attendant) {
      all.delete(attendant);
      onPages(all.size);
    },
    hangUp() {
      for (const attendant of all) attendant.hangUp();
    },
  };
}

function connect(webSocket: WebSocket, service: BenchService, attendants: Attendants): void {
  const attendant = attend(service, (text) => {
    if (webSocket.readyState !== webSocket.OPEN) return;
    if (webSocket.bufferedAmount > mostBehind_bytes) webSocket.terminate();
    else webSocket.send(text, () => undefined);
  });
  webSocket.on('message', (data, isBinary) => {
    if (!isBinary && Buffer.isBuffer(data)) void attendant.receive(data.toString('utf8'));
  });
  attendants.come(attendant);
  webSocket.on('close', () => {
    attendant.hangUp();
    attendants.go(attendant);
  });
  // A broken connection also closes; there is nothing more to do about the error itself.
  webSocket.on('error', () => webSocket.terminate());
}

function servePage(request: IncomingMessage, response: ServerResponse, files: PageFiles, port: number): void {
  if (!isOwnHost(request.headers.host, port)) return refuse(response, 403);
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(response, 405);
  const file = fileFor(files, request.url ?? '/');
  if (file === undefined) return refuse(response, 404);
  const own = [`ws://127.0.0.1:${port}`, `ws://localhost:${port}`];
  response.writeHead(200, { ...fileHeaders(file, own), 'cache-control': 'no-store' });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  createReadStream(file)
    .on('error', () => response.destroy())
    .pipe(response);
}

function refuse(response: ServerResponse, status: number): void {
  response.writeHead(status, { ...securityHeaders(), 'content-type': 'text/plain; charset=utf-8' });
  response.end();
}
