import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linkText, parseLink } from '../../../../src/shared/gauges/link.ts';

const parsed = (text: string): unknown => {
  const link = parseLink(text);
  return link.ok ? link.value : link.problem;
};

describe('links', () => {
  it('are read as the contracts write them', () => {
    expect(parsed('serial:/dev/ttyUSB0?baud=9600&bits=7&parity=even&stop=1&dtr=1&rts=0&ask=D%0D&every=200')).toEqual({
      kind: 'serial',
      path: '/dev/ttyUSB0',
      baud: 9600,
      bits: 7,
      parity: 'even',
      stop: 1,
      dtr: true,
      rts: false,
      ask: 'D\r',
      every_ms: 200,
    });
    expect(parsed('tcp://host:4001')).toEqual({ kind: 'tcp', host: 'host', port: 4001 });
    expect(parsed('tcp://[::1]:4001')).toMatchObject({ host: '[::1]', port: 4001 });
    expect(parsed('modbus:/dev/ttyUSB0?baud=19200&unit=1&register=0')).toMatchObject({
      kind: 'modbus',
      baud: 19_200,
      unit: 1,
      register: 0,
    });
    const all =
      'modbus:/dev/ttyUSB0?baud=19200&unit=9&register=256&function=4&type=s32&order=low-first&scale=0.001&every=50';
    expect(parsed(all)).toMatchObject({
      unit: 9,
      register: 256,
      function: 4,
      type: 's32',
      order: 'low-first',
      scale: 0.001,
      every_ms: 50,
    });
    const link = parseLink(all);
    expect(link.ok && linkText(link.value)).toBe(all);
    expect(parsed('serial:COM3')).toMatchObject({ path: 'COM3', baud: 9600, bits: 8, parity: 'none', stop: 1 });
    expect(parsed(String.raw`serial:\\.\COM12?baud=4800`)).toMatchObject({ path: String.raw`\\.\COM12` });
  });

  it.each([
    ['usb:3', 'link'],
    ['serial:', 'path'],
    ['modbus:?unit=1', 'path'],
    ['tcp:host:4001', 'link'],
    ['keyboard:/dev/x', 'link'],
    ['tcp://:4001', 'host'],
    ['tcp://fe80::1:4001', 'host'],
    ['tcp://a b:4001', 'host'],
    ['tcp://host', 'port'],
    ['tcp://host:70000', 'port'],
    ['tcp://host:4001?ask=', 'ask'],
    ['serial:/dev/x?ask=\u20AC', 'ask'],
    ['serial:/dev/x?baud=fast', 'baud'],
    ['serial:/dev/x?bits=9', 'bits'],
    ['serial:/dev/x?parity=maybe', 'parity'],
    ['serial:/dev/x?dtr=yes', 'dtr'],
    ['serial:/dev/x?speed=9600', 'speed'],
    ['tcp://host:1?baud=9600', 'baud'],
    ['modbus:/dev/x?unit=0', 'unit'],
    ['modbus:/dev/x?function=6', 'function'],
    ['modbus:/dev/x?scale=-1', 'scale'],
    ['modbus:/dev/x?bits=7', 'bits'],
  ])('%s is refused, and %s is named', (text, field) => {
    expect(parsed(text)).toMatchObject({ kind: 'wrong-link', field });
  });

  it('that are wrong in several parts name them all, the first one first', () => {
    const link = parseLink('modbus:/dev/x?baud=fast&unit=300&scale=none&speed=1');
    expect(link.ok ? [] : link.problems?.map(({ field }) => field)).toEqual(['baud', 'unit', 'scale', 'speed']);
    expect(link).toMatchObject({ ok: false, problem: { field: 'baud' } });
  });

  it('come back from their text', () => {
    const asking = fc.record(
      {
        ask: fc.string({ unit: 'binary-ascii', minLength: 1, maxLength: 6 }),
        every_ms: fc.integer({ min: 5, max: 9999 }),
      },
      { requiredKeys: ['ask', 'every_ms'] },
    );
    const serial = fc.record({
      kind: fc.constant('serial' as const),
      path: fc.constantFrom('/dev/ttyUSB0', '/dev/pts/7', 'COM3', '/dev/serial/by-id/usb 1?2&3%'),
      baud: fc.integer({ min: 50, max: 921_600 }),
      bits: fc.constantFrom(7 as const, 8 as const),
      parity: fc.constantFrom('none' as const, 'even' as const, 'odd' as const),
      stop: fc.constantFrom(1 as const, 2 as const),
    });
    fc.assert(
      fc.property(serial, asking, fc.boolean(), (line, ask, asked) => {
        const link = asked ? { ...line, ...ask } : line;
        expect(parsed(linkText(link))).toEqual(link);
      }),
    );
  });
});
