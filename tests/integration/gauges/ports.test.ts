import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { openPort } from '../../../src/main/gauges/links/openPort.ts';
import { openingProblem, permissionRemedy } from '../../../src/main/gauges/links/portProblem.ts';
import { listPorts } from '../../../src/main/gauges/ports.ts';
import { parseLink } from '../../../src/shared/gauges/link.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { lineForTest } from '../../support/gaugesForTest.ts';

async function problemOf(text: string): Promise<unknown> {
  const link = parseLink(text);
  if (!link.ok) return link.problem;
  const port = await openPort(link.value, { bytes: () => undefined, closed: () => undefined });
  if (!port.ok) return port.problem;
  await port.value.close();
  return 'opened';
}

describe('a port that cannot be opened', () => {
  it.skipIf(process.platform !== 'linux')('is missing, busy or no port at all, each said plainly', async () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'file');
    fs.writeFileSync(file, '');
    expect(await problemOf(`serial:${folder}/none`)).toMatchObject({
      kind: 'port-missing',
      sentence: `There is no port ${folder}/none.`,
    });
    expect(await problemOf(`serial:${file}`)).toMatchObject({ kind: 'not-a-port' });
    const line = await lineForTest('pty');
    const link = parseLink(line.link);
    if (!link.ok) throw new Error(link.problem.sentence);
    const first = await openPort(link.value, { bytes: () => undefined, closed: () => undefined });
    expect(await problemOf(line.link)).toMatchObject({ kind: 'port-busy' });
    if (first.ok) await first.value.close();
    expect(await problemOf(`${line.link}?dtr=1&rts=0`)).toBe('opened');
  });

  it('has nobody answering in the network', async () => {
    const server = net.createServer();
    const port = await new Promise<number>((resolve) => {
      server.listen(0, '127.0.0.1', () => resolve((server.address() as net.AddressInfo).port));
    });
    await new Promise((resolve) => server.close(resolve));
    expect(await problemOf(`tcp://127.0.0.1:${port}`)).toMatchObject({
      kind: 'no-answer',
      sentence: `Nothing answers at 127.0.0.1:${port}.`,
    });
  });

  it('is asked over Modbus and missing like any other', async () => {
    expect(await problemOf('modbus:/dev/none?unit=1')).toMatchObject({ kind: 'port-missing' });
  });

  // As root nobody is refused, so the system's own words are given to the seam.
  it.each([
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'no-permission'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'port-missing'],
    ['Error: No such device or address, cannot open /dev/ttyUSB0', 'port-missing'],
    ['Error Resource temporarily unavailable Cannot lock port', 'port-busy'],
    ['Error: Device or resource busy, cannot open /dev/ttyUSB0', 'port-busy'],
    ['Opening COM3: File not found', 'port-missing'],
    ['Opening COM3: Access denied', 'port-busy'],
    ['Error: Input/output error, cannot open /dev/ttyUSB0', 'port-error'],
  ])('says "%s": %s', (said, kind) => {
    expect(openingProblem(new Error(said), '/dev/ttyUSB0')).toMatchObject({ kind });
  });

  it('gives the exact words that put permission right on Linux', () => {
    expect(permissionRemedy('linux')).toContain('sudo usermod -aG dialout $USER');
    expect(permissionRemedy('linux')).toContain('log out and in');
  });
});

describe('the list of ports', () => {
  it('is empty where the system has none, and does not fail', async () => {
    expect(await listPorts(() => Promise.reject(new Error('spawn udevadm ENOENT')))).toEqual([]);
    expect(Array.isArray(await listPorts())).toBe(true);
  });

  it('names ports so that a person knows them, and keeps the USB identity', async () => {
    const ports = await listPorts(() =>
      Promise.resolve([
        { path: '/dev/ttyUSB0', manufacturer: 'Bridge', vendorId: '1209', productId: '0001', serialNumber: 'A7' },
        { path: '/dev/ttyS0' },
        { path: '/dev/ttyS17' },
        { path: 'COM7', friendlyName: 'Serial bridge (COM7)', vendorId: '1209', productId: '0001' },
      ]),
    );
    expect(ports).toEqual([
      {
        link: 'serial:/dev/ttyUSB0?baud=9600',
        name: 'Bridge – /dev/ttyUSB0',
        simulated: false,
        usb: { vendor: '1209', product: '0001', serial: 'A7' },
      },
      { link: 'serial:/dev/ttyS0?baud=9600', name: '/dev/ttyS0', simulated: false },
      {
        link: 'serial:COM7?baud=9600',
        name: 'Serial bridge (COM7) – COM7',
        simulated: false,
        usb: { vendor: '1209', product: '0001' },
      },
    ]);
  });
});
