import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { Duplex } from 'node:stream';
import { checkServerIdentity, connect as connectTls } from 'node:tls';

/** Where a line goes, and whom it trusts there; without `trust` nothing is encrypted. */
export interface LineTo {
  readonly host: string;
  readonly port: number;
  readonly trust?: { readonly ca?: string | undefined } | undefined;
}

/** SSLRequest (PostgreSQL's frontend protocol, 55.2): a server answers it with S or N. */
const sslRequest = Buffer.from([0, 0, 0, 8, 0x04, 0xd2, 0x16, 0x2f]);
const patience_ms = 10_000;
const keepAlive_ms = 60_000;
/** A line that broke is looked at for so long before it is put away. */
const linger_ms = 100;

/**
 * A line to a server, in the place of the client's own socket, for two reasons. Where the server's certificate is checked, it is
 * against the host as it was typed, IP addresses too. And the client (postgres 3.4.9) writes into a socket it has put away already
 * when a line breaks inside a transaction: a fault that no caller can catch, and an answer that never comes. So a line that
 * breaks says so at once, answers everything that is still written into it with the same error, and is put away a moment later.
 */
export class Line extends Duplex {
  readonly #to: LineTo;
  #inner: Socket | undefined;
  #broken: Error | undefined;

  constructor(to: LineTo) {
    super({ autoDestroy: false });
    this.#to = to;
  }

  /** As a socket of Node says it, for the client. */
  get readyState(): 'open' | 'closed' {
    return this.#broken === undefined && !this.destroyed ? 'open' : 'closed';
  }

  override _construct(done: (error?: Error) => void): void {
    opened(this.#to).then(
      (inner) => {
        this.#follow(inner);
        done();
      },
      (error: unknown) => {
        // Told as an error and not as a failed making, so that what waits to be written hears of it too.
        done();
        this.#break(error instanceof Error ? error : new Error(String(error)));
      },
    );
  }

  #follow(inner: Socket): void {
    this.#inner = inner;
    inner.on('data', (bytes: Buffer) => {
      if (!this.push(bytes)) inner.pause();
    });
    inner.on('error', (error) => this.#break(error));
    inner.on('close', () => this.#break(closedLine()));
  }

  #break(error: Error): void {
    if (this.#broken !== undefined || this.destroyed) return;
    this.#broken = error;
    this.emit('error', error);
    setTimeout(() => this.destroy(), this.writableEnded ? 0 : linger_ms);
  }

  override _read(): void {
    this.#inner?.resume();
  }

  override _write(bytes: Buffer, _encoding: BufferEncoding, done: () => void): void {
    const broken = this.#broken;
    if (broken === undefined) this.#inner?.write(bytes, () => done());
    else {
      done();
      process.nextTick(() => this.emit('error', broken));
    }
  }

  override _final(done: () => void): void {
    this.#inner?.end();
    done();
  }

  override _destroy(_error: Error | null, done: (error: Error | null) => void): void {
    this.#broken ??= closedLine();
    this.#inner?.destroy();
    done(null);
  }
}

const closedLine = (): Error => Object.assign(new Error('the line was cut'), { code: 'CONNECTION_CLOSED' });

/** Waits for something; fails where the socket closes first, with or without a word. */
async function happens(socket: Socket, event: string): Promise<unknown[]> {
  const closing = new AbortController();
  const close = (): void => closing.abort(closedLine());
  socket.once('close', close);
  try {
    return await once(socket, event, { signal: closing.signal });
  } catch (error) {
    throw closing.signal.aborted ? closedLine() : error;
  } finally {
    socket.off('close', close);
  }
}

/** A socket that is connected and, where asked for, encrypted and trusted. */
async function opened({ host, port, trust }: LineTo): Promise<Socket> {
  const socket = connect({ host, port });
  socket.setTimeout(patience_ms, () => socket.destroy(Object.assign(new Error('no answer'), { code: 'ETIMEDOUT' })));
  await happens(socket, 'connect');
  const line = trust === undefined ? socket : await encrypted(socket, host, trust.ca);
  socket.setTimeout(0);
  socket.setNoDelay(true);
  socket.setKeepAlive(true, keepAlive_ms);
  return line;
}

async function encrypted(socket: Socket, host: string, ca: string | undefined): Promise<Socket> {
  socket.write(sslRequest);
  const [answer] = (await happens(socket, 'data')) as [Buffer];
  if (answer.toString('latin1') !== 'S') {
    socket.destroy();
    throw Object.assign(new Error('the server does not encrypt'), { code: 'NOT_ENCRYPTED' });
  }
  const secure = connectTls({
    socket,
    ...(ca === undefined ? {} : { ca }),
    rejectUnauthorized: true,
    checkServerIdentity: (_, certificate) => checkServerIdentity(host, certificate),
  });
  await happens(secure, 'secureConnect');
  return secure;
}
