import { setTimeout as pause } from 'node:timers/promises';
import { SerialPort } from 'serialport';
import { describe, expect, it } from 'vitest';
import { serveLine } from '../../../hardware-sim/lines/line.ts';
import { openSerial } from '../../../src/main/gauges/links/serial.ts';
import type { SerialLink } from '../../../src/shared/gauges/link.ts';
import { latin1 } from '../../support/writeLine.ts';

const times = 12;
const flood = latin1('+0.2370 mm\r\n'.repeat(300));

interface Told {
  readonly closed: number;
  readonly bytes: number;
}

/** Opens a port, floods it, pulls the cable in mid-flow and says whether we were told within a second. */
async function unplugInMidFlow(binding?: unknown): Promise<Told> {
  const line = await serveLine({ kind: 'pty' });
  const path = line.link.replace('serial:', '');
  const link: SerialLink = { kind: 'serial', path, baud: 115_200, bits: 8, parity: 'none', stop: 1 };
  const heard = { closed: 0, bytes: 0 };
  const listener = {
    bytes: (more: Uint8Array) => (heard.bytes += more.length),
    closed: () => (heard.closed += 1),
  };
  const port = await (binding === undefined ? openSerial(link, listener) : openSerial(link, listener, binding));
  if (!port.ok) throw new Error(port.problem.sentence);
  const pulled = new AbortController();
  const flow = (async () => {
    while (!pulled.signal.aborted) await line.write(flood);
  })();
  await pause(40);
  // However busy this machine is: the cable is pulled only once data has come through.
  for (let waited = 0; waited < 5000 && heard.bytes === 0; waited += 5) await pause(5);
  pulled.abort();
  await line.unplug();
  for (let waited = 0; waited < 1000 && heard.closed === 0; waited += 10) await pause(10);
  const told = { ...heard };
  // Ends serialport's endless reading too, where there is no guard.
  await port.value.close();
  await flow;
  await line.end();
  return told;
}

describe.skipIf(process.platform !== 'linux')('a cable pulled while data flows', () => {
  it('is told, once and within a second, every time; and then there is rest', async () => {
    for (let i = 0; i < times; i += 1) {
      const { closed, bytes } = await unplugInMidFlow();
      expect(closed).toBe(1);
      expect(bytes).toBeGreaterThan(0);
    }
    const before = process.cpuUsage();
    await pause(400);
    const { user, system } = process.cpuUsage(before);
    expect(user + system).toBeLessThan(200_000);
  });

  it('is not always told by serialport alone: the day this fails, the guard can go', async () => {
    let tries = 0;
    let told = true;
    // It happens by chance, on some days once in tens of pulls: only many without it mean that it is gone.
    for (; told && tries < 12 * times; tries += 1) told = (await unplugInMidFlow(SerialPort.binding)).closed > 0;
    expect(told).toBe(false);
  });
});
