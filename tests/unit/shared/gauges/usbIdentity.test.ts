import { describe, expect, it } from 'vitest';
import { whereIs } from '../../../../src/shared/gauges/usbIdentity.ts';

const own = { vendor: '1209', product: '0001', serial: 'A7' };
const bare = { vendor: '1209', product: '0001' };
const at = (path: string, usb?: typeof own | typeof bare) => ({ path, usb });

describe('where a gauge is, by its USB adapter', () => {
  it('is wherever its serial number is, whatever the number of the port', () => {
    const ports = [at('/dev/ttyUSB0', { ...own, serial: 'B8' }), at('/dev/ttyUSB1', own), at('/dev/ttyS0')];
    expect(whereIs(own, ports, [{ ...own, serial: 'B8' }])).toEqual({ is: 'found', path: '/dev/ttyUSB1' });
  });

  it.each([
    ['vendor', { ...own, vendor: '1a86' }],
    ['product', { ...own, product: '7523' }],
    ['serial number', { ...own, serial: 'A8' }],
  ])('is not found in an adapter that differs by its %s alone', (_what, other) => {
    expect(whereIs(own, [at('COM3', other)], [])).toEqual({ is: 'absent' });
    expect(whereIs(own, [at('COM3', own)], [other])).toEqual({ is: 'found', path: 'COM3' });
  });

  it('is nowhere while its adapter is not there, though another hangs at its old port', () => {
    expect(whereIs(own, [at('/dev/ttyUSB0', { ...own, serial: 'B8' }), at('/dev/ttyUSB1', bare)], [])).toEqual({
      is: 'absent',
    });
  });

  it.each([
    ['two ports look alike', [at('COM3', bare), at('COM4', bare)], [], bare],
    ['two adapters have one serial number', [at('COM3', own), at('COM4', own)], [], own],
    ['another gauge has the same kind of adapter', [at('COM3', bare)], [bare], bare],
  ])('is asked for when %s', (_why, ports, others, usb) => {
    expect(whereIs(usb, ports, others)).toEqual({ is: 'unclear', paths: ports.map(({ path }) => path) });
  });

  it('is clear for an adapter without a number as long as there is one of its kind', () => {
    expect(whereIs(bare, [at('COM3', bare), at('COM4', own)], [own])).toEqual({ is: 'found', path: 'COM3' });
  });
});
