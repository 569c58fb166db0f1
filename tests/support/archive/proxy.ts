import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';

/** A line between benches and the archive that can be cut while something is on it. */
export interface Proxy {
  readonly port: number;
  /** Cuts everything that is on it. */
  cut(): void;
  /** Bytes that went towards the archive. */
  readonly sent: () => number;
  close(): Promise<void>;
}

export async function openProxy(to: number): Promise<Proxy> {
  const lines = new Set<Socket>();
  let sent = 0;
  const server = createServer((near) => {
    const far = connect(to, '127.0.0.1');
    for (const each of [near, far]) {
      lines.add(each);
      each.on('error', () => undefined);
      each.on('close', () => {
        lines.delete(each);
        near.destroy();
        far.destroy();
      });
    }
    near.on('data', (bytes) => (sent += bytes.length));
    near.pipe(far);
    far.pipe(near);
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    port: (server.address() as AddressInfo).port,
    cut: () => lines.forEach((line) => line.destroy()),
    sent: () => sent,
    async close() {
      server.close();
      lines.forEach((line) => line.destroy());
    },
  };
}
