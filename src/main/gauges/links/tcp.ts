import net from 'node:net';
import { fail, ok, type Result } from '../../../shared/result.ts';
import type { TcpLink } from '../../../shared/lines/link.ts';
import type { Port, PortListener, PortProblemKind } from './port.ts';
import { openingProblem, vanished } from './port-problem.ts';

const patience_ms = 3000;

/** Connects to a serial server (or a gauge in the network) that sends the same lines over TCP. */
export async function openTcp(link: TcpLink, listener: PortListener): Promise<Result<Port, PortProblemKind>> {
  const place = `${link.host}:${link.port}`;
  const socket = net.connect({ host: link.host.replaceAll(/[[\]]/gu, ''), port: link.port, noDelay: true });
  socket.setKeepAlive(true, 1000);
  socket.on('data', (bytes: Buffer) => listener.bytes(bytes));
  try {
    await connected(socket);
  } catch (error) {
    socket.destroy();
    return fail(openingProblem(error, place));
  }
  socket.on('error', () => socket.destroy());
  socket.once('end', () => socket.destroy());
  socket.once('close', () => listener.closed(vanished(place)));
  return ok({
    write: (bytes) => void socket.write(bytes),
    close: () => ended(socket),
  });
}

const connected = (socket: net.Socket): Promise<void> =>
  new Promise((resolve, reject) => {
    const tooLong = setTimeout(() => reject(new Error('ETIMEDOUT')), patience_ms);
    socket.once('error', reject);
    socket.once('connect', () => {
      socket.off('error', reject);
      clearTimeout(tooLong);
      resolve();
    });
    socket.once('close', () => clearTimeout(tooLong));
  });

const ended = (socket: net.Socket): Promise<void> =>
  new Promise((resolve) => {
    if (socket.closed) return resolve();
    socket.once('close', () => resolve());
    return void socket.destroy();
  });
