import net from 'node:net';
import { fail, ok, type Result } from '../../../shared/basics/result.ts';
import type { TcpLink } from '../../../shared/gauges/link.ts';
import type { Port, PortListener, PortProblemKind } from './port.ts';
import { hangsUp, openingProblem, vanished } from './portProblem.ts';

const patience_ms = 3000;
/** A server that ends a connection so soon, and has said nothing, did not want it. */
const hangUpWithin_ms = 1000;
/** A server that reads nothing is not asked on: questions would heap up here, and all be answered late at once. */
const mostWaiting_bytes = 4096;

/** Connects to a serial server (or a gauge in the network) that sends the same lines over TCP. */
export async function openTcp(link: TcpLink, listener: PortListener): Promise<Result<Port, PortProblemKind>> {
  const place = `${link.host}:${link.port}`;
  const socket = net.connect({ host: link.host.replaceAll(/[[\]]/gu, ''), port: link.port, noDelay: true });
  socket.setKeepAlive(true, 1000);
  let saidAnything = false;
  socket.on('data', (bytes: Buffer) => {
    saidAnything = true;
    listener.bytes(bytes);
  });
  try {
    await connected(socket);
  } catch (error) {
    socket.destroy();
    return fail(openingProblem(error, place));
  }
  const since_ms = performance.now();
  let endedByUs = false;
  socket.on('error', () => socket.destroy());
  socket.once('end', () => socket.destroy());
  socket.once('close', () => {
    const unwanted = !endedByUs && !saidAnything && performance.now() - since_ms < hangUpWithin_ms;
    listener.closed(unwanted ? hangsUp(place) : vanished(place));
  });
  return ok({
    write: (bytes) => {
      if (socket.writableLength < mostWaiting_bytes) socket.write(bytes);
    },
    close: () => {
      endedByUs = true;
      return ended(socket);
    },
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
