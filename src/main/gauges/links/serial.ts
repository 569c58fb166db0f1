import { SerialPort } from 'serialport';
import { fail, ok, type Result } from '../../../shared/basics/result.ts';
import type { SerialLink } from '../../../shared/gauges/link.ts';
import type { Port, PortListener, PortProblemKind } from './port.ts';
import { openingProblem, vanished } from './portProblem.ts';
import { guardedBinding } from './serialGuard.ts';

type Binding = typeof SerialPort.binding;

/** Opens a serial port and keeps it to itself. `binding` is replaced only to show what it guards against. */
export async function openSerial(
  link: SerialLink,
  listener: PortListener,
  binding: unknown = guardedBinding,
): Promise<Result<Port, PortProblemKind>> {
  const port = new SerialPort({
    path: link.path,
    baudRate: link.baud,
    dataBits: link.bits,
    parity: link.parity,
    stopBits: link.stop,
    autoOpen: false,
    // serialport takes this option though its types leave it out.
    ...({ binding } as { readonly binding: Binding }),
  });
  listen(port, link.path, listener);
  try {
    await new Promise<void>((resolve, reject) => port.open((error) => (error === null ? resolve() : reject(error))));
  } catch (error) {
    return fail(openingProblem(error, link.path));
  }
  await setHandshake(port, link);
  return ok({
    write: (bytes) => void port.write(Buffer.from(bytes)),
    close: () => closed(port),
  });
}

function listen(port: SerialPort, path: string, listener: PortListener): void {
  let gone = false;
  port.on('data', (bytes: Buffer) => listener.bytes(bytes));
  // Every error that matters also closes the port; without a listener it would end the bench.
  port.on('error', () => undefined);
  // A failed write after an unplug makes serialport say `close` twice.
  port.on('close', () => {
    if (gone) return;
    gone = true;
    listener.closed(vanished(path));
  });
}

/** Some interfaces draw their power from DTR or RTS. A port that has no such lines is none the worse for it. */
async function setHandshake(port: SerialPort, { dtr, rts }: SerialLink): Promise<void> {
  if (dtr === undefined && rts === undefined) return;
  const flags = { ...(dtr !== undefined && { dtr }), ...(rts !== undefined && { rts }) };
  await new Promise<void>((resolve) => port.set(flags, () => resolve()));
}

const closed = (port: SerialPort): Promise<void> =>
  new Promise((resolve) => {
    if (!port.isOpen) return resolve();
    return port.close(() => resolve());
  });
