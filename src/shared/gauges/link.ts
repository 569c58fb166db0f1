import { type ModbusLink, modbusLink, modbusOptions } from './modbus/modbusLink.ts';
import {
  decodeBytes,
  encodeBytes,
  encodePath,
  type LinkRead,
  optionsIn,
  reader,
  wrong,
  wrongPart,
} from './linkOptions.ts';
import type { SerialLine } from './serialLine.ts';

/** How a gauge is reached. The text form is described in the contracts: `serial:/dev/ttyUSB0?baud=9600`. */
export type Link = SerialLink | TcpLink | ModbusLink | KeyboardLink;

/** A gauge that types its lines like a keyboard, into the bench's own window. */
interface KeyboardLink {
  readonly kind: 'keyboard';
}

export interface Asking {
  /** What to send to get one reading, a byte a character; left out where the gauge sends by itself. */
  readonly ask?: string;
  readonly every_ms?: number;
}

export interface SerialLink extends SerialLine, Asking {
  readonly kind: 'serial';
  /** Handshake lines that power some interfaces; left as they are when not given. */
  readonly dtr?: boolean;
  readonly rts?: boolean;
}

export interface TcpLink extends Asking {
  readonly kind: 'tcp';
  readonly host: string;
  readonly port: number;
}

/** Reads the text form of a link. Each problem names the part that is wrong. */
export function parseLink(text: string): LinkRead<Link> {
  const shape = /^(serial|tcp|modbus|keyboard):([^?]*)(?:\?(.*))?$/su.exec(text.trim());
  const kind = shape?.[1];
  const place = shape?.[2] ?? '';
  const read = reader(optionsIn(shape?.[3] ?? ''));
  if (kind === 'keyboard' && place === '') return read.finish({ kind });
  if (kind === 'tcp') return tcpLink(place, read);
  if (kind === 'serial') return serialLink(place, read);
  if (kind === 'modbus') return modbusLink(lineOf(place, read), read);
  return wrong('link', `"${text}" is not a link`, 'Write it like serial:/dev/ttyUSB0?baud=9600 or tcp://host:port.');
}

/** The text form again; what is usual is left out. */
export function linkText(link: Link): string {
  if (link.kind === 'keyboard') return 'keyboard:';
  const options = optionsOf(link).map(([name, value]) => `${name}=${value}`);
  const place = link.kind === 'tcp' ? `//${link.host}:${link.port}` : encodePath(link.path);
  return `${link.kind}:${place}${options.length === 0 ? '' : `?${options.join('&')}`}`;
}

/** What the gauge behind a link is asked, where it answers a request in text. */
export const askingOf = (link: Link): Asking => (link.kind === 'serial' || link.kind === 'tcp' ? link : {});

function optionsOf(link: Exclude<Link, KeyboardLink>): (readonly [string, string])[] {
  if (link.kind === 'tcp') return askingOptions(link);
  const line: (readonly [string, string])[] = [['baud', String(link.baud)]];
  if (link.bits !== 8) line.push(['bits', String(link.bits)]);
  if (link.parity !== 'none') line.push(['parity', link.parity]);
  if (link.stop !== 1) line.push(['stop', String(link.stop)]);
  if (link.kind === 'modbus') return [...line, ...modbusOptions(link)];
  if (link.dtr !== undefined) line.push(['dtr', link.dtr ? '1' : '0']);
  if (link.rts !== undefined) line.push(['rts', link.rts ? '1' : '0']);
  return [...line, ...askingOptions(link)];
}

function askingOptions(link: Asking): (readonly [string, string])[] {
  if (link.ask === undefined) return [];
  return [
    ['ask', encodeBytes(link.ask)],
    ...(link.every_ms === undefined ? [] : [['every', String(link.every_ms)] as const]),
  ];
}

type Reader = ReturnType<typeof reader>;

export const parities = ['none', 'even', 'odd', 'mark', 'space'] as const;

function lineOf(path: string, read: Reader): SerialLine {
  if (path === '') read.refuse(wrongPart('path', 'No port is named', 'Write it like /dev/ttyUSB0 or COM3.'));
  return {
    path: decodeBytes(path),
    baud: read.whole('baud', 9600, 50, 4_000_000),
    bits: read.oneOf('bits', '8', ['7', '8']) === '7' ? 7 : 8,
    parity: read.oneOf('parity', 'none', parities),
    stop: read.oneOf('stop', '1', ['1', '2']) === '2' ? 2 : 1,
  };
}

function askingIn(read: Reader): Asking {
  const ask = read.bytes('ask');
  const every_ms = read.whole('every', 200, 5, 3_600_000);
  return ask === undefined ? {} : { ask, every_ms };
}

function serialLink(place: string, read: Reader): LinkRead<Link> {
  const line = lineOf(place, read);
  const dtr = flag(read, 'dtr');
  const rts = flag(read, 'rts');
  return read.finish({ kind: 'serial', ...line, ...dtr, ...rts, ...askingIn(read) });
}

function flag<Name extends 'dtr' | 'rts'>(read: Reader, name: Name): { readonly [K in Name]?: boolean } {
  const value = read.oneOf(name, 'as-it-is', ['0', '1', 'as-it-is']);
  return value === 'as-it-is' ? {} : ({ [name]: value === '1' } as { readonly [K in Name]?: boolean });
}

/** A name or an IPv4 address; an IPv6 address stands in brackets, because it has colons of its own. */
const hostShape = /^(?:\[[0-9A-Fa-f:.]+\]|[\p{L}\p{N}._-]+)$/u;

function tcpLink(place: string, read: Reader): LinkRead<Link> {
  const found = /^\/\/(\[[^\]]*\]|.*?)(?::([^:\]]*))?\/?$/su.exec(place);
  if (found === null)
    return wrong('link', `"tcp:${place}" has no host and port`, 'Write it like tcp://192.168.1.20:4001.');
  const [, host = '', digits = ''] = found;
  if (!hostShape.test(host))
    read.refuse(
      wrongPart('host', `"${host}" is no host`, 'Write a name, or an address like 192.168.1.20 or [fe80::1].'),
    );
  const port = /^\d{1,5}$/u.test(digits) ? Number(digits) : 0;
  if (!(port >= 1 && port <= 65_535))
    read.refuse(wrongPart('port', `"${digits}" is no port number`, 'Allowed: a whole number from 1 to 65535.'));
  return read.finish({ kind: 'tcp', host, port, ...askingIn(read) });
}
