import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import net from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';

/**
 * Programs that are not ours, to talk to: a serial server and a Modbus slave, as Debian packs them (ser2net,
 * python3-pymodbus with python3-serial-asyncio). `npm test` installs them where it may; elsewhere their tests are skipped.
 */
const ser2net = '/usr/sbin/ser2net';
const python = '/usr/bin/python3';

export const hasSer2net = process.platform === 'linux' && existsSync(ser2net);
export const hasPymodbus =
  process.platform === 'linux' &&
  existsSync(python) &&
  spawnSync(python, ['-c', 'import pymodbus.server']).status === 0;

/** The word a skipped test is skipped with. */
export const where = (has: boolean, what: string): string => (has ? '' : ` – skipped: ${what} is not installed here`);

function ends(child: ChildProcess): void {
  onTestFinished(async () => {
    const over = new Promise((resolve) => void child.once('exit', resolve));
    if (child.exitCode === null && child.signalCode === null && child.kill('SIGKILL')) await over;
  });
}

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const probe = net.createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as net.AddressInfo;
      probe.close(() => resolve(port));
    });
  });

/** ser2net before a terminal; says at which TCP port it listens. */
export async function serialServerBefore(terminal: string): Promise<number> {
  const port = await freePort();
  const folder = await mkdtemp(join(tmpdir(), 'axlewright-peer-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const file = join(folder, 'ser2net.yaml');
  await writeFile(
    file,
    `connection: &gauge\n  accepter: tcp,127.0.0.1,${port}\n  connector: serialdev,${terminal},9600n81,local\n`,
  );
  ends(spawn(ser2net, ['-n', '-c', file, '-P', join(folder, 'pid')], { stdio: 'ignore' }));
  await listening(port);
  return port;
}

async function listening(port: number): Promise<void> {
  for (;;) {
    const open = await new Promise<boolean>((resolve) => {
      const socket = net.connect(port, '127.0.0.1');
      socket.once('connect', () => resolve(true)).once('error', () => resolve(false));
      socket.once('connect', () => socket.destroy());
    });
    if (open) return;
    await pause(20);
  }
}

const slave = `
import sys
from pymodbus.server import StartSerialServer
from pymodbus.transaction import ModbusRtuFramer
from pymodbus.datastore import ModbusSequentialDataBlock, ModbusSlaveContext, ModbusServerContext
held = ModbusSequentialDataBlock(0, [int(word, 16) for word in sys.argv[2].split()])
read = ModbusSequentialDataBlock(0, [int(word, 16) for word in sys.argv[3].split()])
store = ModbusSlaveContext(hr=held, ir=read, zero_mode=True)
print("ready", flush=True)
StartSerialServer(context=ModbusServerContext(slaves={7: store}, single=False), framer=ModbusRtuFramer, port=sys.argv[1], baudrate=19200, parity="N")
`;

/** pymodbus as unit 7 on a terminal, with these holding and input registers from 0 on (hexadecimal words). Its parity is none: a pseudo-terminal has none. */
export async function modbusSlaveOn(terminal: string, holding: string, input: string): Promise<void> {
  const child = spawn(python, ['-c', slave, terminal, holding, input], { stdio: ['ignore', 'pipe', 'ignore'] });
  ends(child);
  await new Promise<void>((resolve) => void child.stdout.once('data', () => resolve()));
}
