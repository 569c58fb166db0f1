import { describe, expect, it } from 'vitest';
import { portAnswer } from '../../../../../src/main/cli/verbs/ports.ts';
import { listPorts } from '../../../../../src/main/gauges/ports.ts';
import { inProcess } from '../../../../support/commandLine.ts';

describe('ports', () => {
  it('tells each port by its path, and its USB identity where it has one', async () => {
    // The list itself comes from the system; a pseudo-terminal is in none, so it is given at the seam.
    const listed = await listPorts(async () => [
      { path: '/dev/ttyUSB0', manufacturer: 'Cable', vendorId: '1234', productId: 'abcd', serialNumber: '7' },
      { path: '/dev/odd name?', vendorId: '1', productId: '2' },
      { path: '/dev/ttyS0' },
    ]);
    expect(listed.map(portAnswer)).toEqual([
      { path: '/dev/ttyUSB0', name: 'Cable – /dev/ttyUSB0', usb: { vendor: '1234', product: 'abcd', serial: '7' } },
      { path: '/dev/odd name?', name: '/dev/odd name?', usb: { vendor: '1', product: '2' } },
      { path: '/dev/ttyS0', name: '/dev/ttyS0' },
    ]);
  });

  it('answers with one list, whatever this computer has', async () => {
    const { code, answers } = await inProcess('ports');
    expect(code).toBe(0);
    expect(answers).toEqual([expect.any(Array)]);
  });
});
