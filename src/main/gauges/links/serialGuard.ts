import fs from 'node:fs';
import { SerialPort } from 'serialport';
import { codeOf } from './portProblem.ts';

/** What we need of serialport's Unix bindings beside their published face. */
interface UnixPort {
  fd: number | null;
  readonly isOpen: boolean;
  readonly poller?: { once(event: 'readable', tell: (error: Error | null) => void): void };
  read: ReadBytes;
}

type ReadBytes = (buffer: Buffer, offset: number, length: number) => Promise<{ buffer: Buffer; bytesRead: number }>;
type Outcome = 'wait' | 'again' | { readonly bytesRead: number } | Error;

/** After so many empty reads in a row, a millisecond apart, nobody is there any more. */
const emptyReadsMeanGone = 3;

/**
 * serialport 13 on Unix: a terminal that is hung up while data flows answers reads with nothing, at once, and
 * serialport asks again without end; there is no `close`, and a core is kept at full load
 * (known there: serialport/bindings-cpp issue 162). Here an empty read is asked again a few times only, and then is the
 * end of the port, which the stream above turns into its `close`.
 */
export const guardedBinding = {
  list: () => SerialPort.list(),
  open: async (options: unknown): Promise<unknown> => {
    const port = (await (SerialPort.binding.open as (options: unknown) => Promise<unknown>)(options)) as UnixPort;
    // The Windows bindings have no poller and not this fault.
    if (port.poller !== undefined) port.read = (buffer, offset, length) => patientRead(port, buffer, offset, length);
    return port;
  },
};

async function patientRead(port: UnixPort, buffer: Buffer, offset: number, length: number) {
  for (let empty = 0; ;) {
    if (!port.isOpen) throw closedByUs();
    await untilReadable(port);
    const outcome = readNow(port, buffer.subarray(offset, offset + length));
    if (outcome instanceof Error) throw outcome;
    if (typeof outcome === 'object') return { buffer, bytesRead: outcome.bytesRead };
    if (outcome === 'wait') continue;
    if ((empty += 1) > emptyReadsMeanGone) throw new Error('the port hung up');
    await new Promise((resolve) => void setTimeout(resolve, 1));
  }
}

/** Here and now: the port is open without blocking, and the way through a thread and back made a line wait for two more turns. */
function readNow({ fd, isOpen }: UnixPort, into: Buffer): Outcome {
  if (!isOpen || fd === null) return closedByUs();
  try {
    const bytesRead = fs.readSync(fd, into);
    return bytesRead > 0 ? { bytesRead } : 'again';
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return nothingYet.test(codeOf(error)) ? 'wait' : error;
  }
}

const nothingYet = /^(?:EAGAIN|EWOULDBLOCK|EINTR)$/u;

/** The mark by which serialport's stream knows that a read ended because we closed the port. */
const closedByUs = (): Error => Object.assign(new Error('Port is not open'), { canceled: true });

const untilReadable = (port: UnixPort): Promise<void> =>
  new Promise((resolve, reject) => {
    port.poller?.once('readable', (error) => (error === null || error === undefined ? resolve() : reject(error)));
  });
