import { createServer, type AddressInfo, type Server, type Socket } from 'node:net';
import { hearing } from './hearing.ts';
import type { Line } from './cable.ts';

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });

const close = (server: Server): Promise<void> => new Promise((resolve) => void server.close(() => resolve()));

/** Settles when the bytes have left, or the peer has. */
const send = (socket: Socket, bytes: Uint8Array): Promise<void> =>
  new Promise((resolve) => {
    if (socket.destroyed || !socket.writable) return resolve();
    const done = (): void => {
      socket.off('close', done);
      resolve();
    };
    socket.once('close', done);
    return void socket.write(bytes, done);
  });

/** A line on a loopback TCP port, as a serial server offers it: every peer hears the same bytes. */
export async function serveTcp(): Promise<Line> {
  const peers = new Set<Socket>();
  const heard = hearing();
  const server = createServer((socket) => {
    // A gauge's line is short and late is worse than small: no waiting to fill a packet.
    socket.setNoDelay(true);
    peers.add(socket);
    socket.on('data', heard.tell);
    socket.on('error', () => undefined);
    socket.on('close', () => peers.delete(socket));
  });
  const port = await listen(server, 0);
  let lost_bytes = 0;

  async function unplug(): Promise<void> {
    if (!server.listening) return;
    const closed = close(server);
    for (const peer of peers) peer.destroy();
    await closed;
  }

  return {
    link: `tcp://127.0.0.1:${port}`,
    async write(bytes) {
      if (peers.size === 0) lost_bytes += bytes.length;
      await Promise.all([...peers].map((peer) => send(peer, bytes)));
    },
    get lost_bytes() {
      return lost_bytes;
    },
    onBytes: heard.on,
    unplug,
    async replug() {
      if (!server.listening) await listen(server, port);
    },
    end: unplug,
  };
}
