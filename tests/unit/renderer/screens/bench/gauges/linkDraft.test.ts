import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type LinkDraft,
  linkDraftOf,
  type LinkErrors,
  type LinkField,
  readLinkDraft,
} from '../../../../../../src/renderer/screens/bench/gauges/linkDraft.ts';
import { type Link, linkText, parities, parseLink } from '../../../../../../src/shared/gauges/link.ts';
import { numberTypes } from '../../../../../../src/shared/gauges/modbus/modbusLink.ts';

const textOf = (draft: LinkDraft): string | LinkErrors => {
  const read = readLinkDraft(draft);
  return read.ok ? read.value : read.errors;
};
const change = (link: string, fields: Partial<LinkDraft>): string | LinkErrors =>
  textOf({ ...linkDraftOf(link), ...fields });

const line = {
  path: fc.constantFrom('/dev/ttyUSB0', '/dev/pts/7', 'COM3', String.raw`\\.\COM12`, '/dev/serial/by-id/usb 1?2&3%'),
  baud: fc.integer({ min: 50, max: 4_000_000 }),
  parity: fc.constantFrom(...parities),
  stop: fc.constantFrom(1 as const, 2 as const),
};
const asked = fc.record({
  // Every byte there is, line ends and control characters among them.
  ask: fc.string({ unit: fc.nat(255).map((code) => String.fromCharCode(code)), minLength: 1, maxLength: 8 }),
  every_ms: fc.integer({ min: 5, max: 3_600_000 }),
});
const asking = fc.oneof(fc.constant({}), asked);
const flag = (name: string) => fc.constantFrom({}, { [name]: true }, { [name]: false });
const together = <T>(...parts: fc.Arbitrary<object>[]): fc.Arbitrary<T> =>
  fc.tuple(...parts).map((each) => Object.assign({}, ...each) as T);

const links: fc.Arbitrary<Link> = fc.oneof(
  together<Link>(
    fc.record({ kind: fc.constant('serial'), ...line, bits: fc.constantFrom(7, 8) }),
    flag('dtr'),
    flag('rts'),
    asking,
  ),
  together<Link>(
    fc.record({
      kind: fc.constant('tcp'),
      host: fc.constantFrom('host', '192.168.1.20', '[fe80::1]', 'bänk-3.shop'),
      port: fc.integer({ min: 1, max: 65_535 }),
    }),
    asking,
  ),
  fc.record({
    kind: fc.constant('modbus' as const),
    ...line,
    bits: fc.constant(8 as const),
    unit: fc.integer({ min: 1, max: 247 }),
    register: fc.integer({ min: 0, max: 65_535 }),
    function: fc.constantFrom(3 as const, 4 as const),
    type: fc.constantFrom(...numberTypes),
    order: fc.constantFrom('high-first' as const, 'low-first' as const),
    scale: fc.constantFrom(1, 0.001, 0.0001, 1e-9, 25.4, 0.000_025_4, 1e6),
    every_ms: fc.integer({ min: 20, max: 3_600_000 }),
  }),
  fc.constant({ kind: 'keyboard' as const }),
);

/** The fields that the form shows for a link of this sort, and so can mark as wrong. */
const shown: Readonly<Record<LinkDraft['sort'], readonly LinkField[]>> = {
  none: [],
  keyboard: [],
  serial: ['path', 'baud', 'bits', 'parity', 'stop', 'dtr', 'rts', 'ask', 'askEvery'],
  tcp: ['host', 'port', 'ask', 'askEvery'],
  modbus: ['path', 'baud', 'parity', 'stop', 'unit', 'register', 'function', 'type', 'order', 'scale', 'every'],
};

describe('a link as fields', () => {
  it('is the same link again: every setting, and every byte of its request', () => {
    fc.assert(
      fc.property(links, (link) => {
        const read = readLinkDraft(linkDraftOf(linkText(link)));
        const again = read.ok ? parseLink(read.value) : undefined;
        expect(again?.ok === true && again.value).toEqual(link);
      }),
    );
  });

  it('whatever is typed into them, is a link that comes back, or is marked at a field that is shown', () => {
    const anything = fc.oneof(fc.string({ unit: 'grapheme' }), fc.constantFrom('1', '9600', '/dev/x', 'host', '0,001'));
    const free = ['path', 'baud', 'host', 'port', 'ask', 'askEvery', 'unit', 'register', 'scale', 'every'] as const;
    const typed = fc.record(Object.fromEntries(free.map((field) => [field, anything])));
    const sorts = fc.constantFrom('serial' as const, 'tcp' as const, 'modbus' as const);
    fc.assert(
      fc.property(sorts, typed, fc.constantFrom('by-itself' as const, 'asked' as const), (sort, fields, sends) => {
        const draft: LinkDraft = { ...linkDraftOf(''), ...fields, sort, sends };
        const read = readLinkDraft(draft);
        if (read.ok) expect(textOf(linkDraftOf(read.value))).toBe(read.value);
        else for (const field of Object.keys(read.errors)) expect(shown[sort]).toContain(field);
      }),
    );
  });

  it('has for every setting nobody touched what a link has where nothing is said', () => {
    const fresh = linkDraftOf('');
    expect(textOf(fresh)).toBe('');
    expect(textOf({ ...fresh, sort: 'serial', path: 'COM3' })).toBe('serial:COM3?baud=9600');
    expect(textOf({ ...fresh, sort: 'modbus', path: 'COM3' })).toBe('modbus:COM3?baud=9600&unit=1&register=0');
    expect(textOf({ ...fresh, sort: 'tcp', host: 'shelf', port: '4001' })).toBe('tcp://shelf:4001');
    const usual = parseLink('tcp://shelf:4001?ask=%3F');
    expect(usual.ok && linkText(usual.value)).toBe(`tcp://shelf:4001?ask=%3F&every=${fresh.askEvery}`);
  });

  it('marks each wrong value at its own field', () => {
    const wrong = { baud: 'fast', unit: '300', scale: '0', register: '-1', every: '1' };
    const errors = change('modbus:/dev/x', wrong);
    expect(Object.keys(errors).toSorted()).toEqual(Object.keys(wrong).toSorted());
    expect(change('modbus:/dev/x', { scale: '0,001' })).toContain('scale=0.001');
    expect(change('serial:/dev/x', { sends: 'asked', ask: '', askEnd: '' })).toMatchObject({ ask: expect.any(String) });
    expect(change('serial:/dev/x', { sends: 'asked', ask: 'D', askEvery: '1' })).toEqual({
      askEvery: 'Allowed for every: a whole number from 5 to 3600000.',
    });
    expect(change('serial:/dev/x', { sends: 'asked', ask: '\u20AC' })).toMatchObject({ ask: expect.any(String) });
  });

  it('leaves out what belongs to another sort of link', () => {
    expect(change('serial:/dev/x?bits=7&parity=even&dtr=1&ask=D%0D', { sort: 'modbus' })).toBe(
      'modbus:/dev/x?baud=9600&parity=even&unit=1&register=0',
    );
    expect(change('serial:/dev/x?ask=D%0D', { sends: 'by-itself' })).toBe('serial:/dev/x?baud=9600');
  });

  it('written whole goes before the fields, and is marked as a whole', () => {
    expect(change('serial:/dev/x', { written: 'tcp://shelf:4001' })).toBe('tcp://shelf:4001');
    expect(change('serial:/dev/x', { written: 'serial:/dev/x?baud=fast' })).toMatchObject({
      link: expect.stringContaining('baud=fast is not possible'),
    });
    // What a record holds and this version cannot read is shown as it stands, not lost.
    expect(linkDraftOf('serial:/dev/x?later=1')).toMatchObject({ written: 'serial:/dev/x?later=1' });
  });

  it('shows a request as it is read, with the end that is usual beside it', () => {
    expect(linkDraftOf('serial:/dev/x?ask=D%0D')).toMatchObject({ sends: 'asked', ask: 'D', askEnd: '\r' });
    expect(linkDraftOf('serial:/dev/x?ask=%1BP%0D%0A')).toMatchObject({ ask: '%1BP', askEnd: '\r\n' });
    expect(linkDraftOf('serial:/dev/x?ask=%3F')).toMatchObject({ ask: '?', askEnd: '' });
  });
});
