import type { Result } from '../result.ts';
import { type ModbusLink, modbusLink, modbusOptions } from './modbus/modbus-link.ts';
import {
  decodeBytes,
  encodeBytes,
  encodePath,
  type LinkProblem,
  type Options,
  optionsIn,
  reader,
  wrong,
} from './link-options.ts';

/** How a gauge is reached. The text form is described in the contracts: `serial:/dev/ttyUSB0?baud=9600`. */
export type Link = SerialLink | TcpLink | ModbusLink | KeyboardLink;

/** A gauge that types its lines like a keyboard, into the bench's own window. */
export interface KeyboardLink {
  readonly kind: 'keyboard';
}

export interface Asking {
  /** What to send to get one reading, a byte a character; left out where the gauge sends by itself. */
  readonly ask?: string;
  readonly every_ms?: number;
}

export interface SerialLine {
  readonly path: string;
  readonly baud: number;
  readonly bits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd' | 'mark' | 'space';
  readonly stop: 1 | 2;
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

/** Reads the text form of a link. A problem names the part that is wrong. */
export function parseLink(text: string): Result<Link, LinkProblem> {
  const shape = /^(serial|tcp|modbus|keyboard):([^?]*)(?:\?(.*))?$/su.exec(text.trim());
  const kind = shape?.[1];
  const place = shape?.[2];
  if (kind === 'keyboard' && place === '') return reader(optionsIn(shape?.[3] ?? '')).finish({ kind });
  if (kind === undefined || kind === 'keyboard' || place === undefined || place === '') {
    return wrong('link', `"${text}" is not a link`, 'Write it like serial:/dev/ttyUSB0?baud=9600 or tcp://host:port.');
  }
  const options = optionsIn(shape?.[3] ?? '');
  if (kind === 'tcp') return tcpLink(place, options);
  if (kind === 'serial') return serialLink(place, options);
  const read = reader(options);
  return modbusLink(lineOf(place, read), read);
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

const parities = ['none', 'even', 'odd', 'mark', 'space'] as const;

function lineOf(path: string, read: Reader): SerialLine {
  return {
    path: decodeBytes(path),
    baud: read.whole('baud', 9600, 50, 4_000_000),
    bits: read.oneOf('bits', '8', ['7', '8']) === '7' ? 7 : 8,
    parity: read.oneOf('parity', 'none', parities),
    stop: read.oneOf('stop', '1', ['1', '2']) === '2' ? 2 : 1,
  };
}

function askingIn(read: Reader): Asking {
  const ask = read.text('ask');
  const every_ms = read.whole('every', 200, 5, 3_600_000);
  return ask === undefined || ask === '' ? {} : { ask, every_ms };
}

function serialLink(place: string, options: Options): Result<Link, LinkProblem> {
  const read = reader(options);
  const line = lineOf(place, read);
  const dtr = flag(read, 'dtr');
  const rts = flag(read, 'rts');
  return read.finish({ kind: 'serial', ...line, ...dtr, ...rts, ...askingIn(read) });
}

function flag<Name extends 'dtr' | 'rts'>(read: Reader, name: Name): { readonly [K in Name]?: boolean } {
  const value = read.oneOf(name, 'as-it-is', ['0', '1', 'as-it-is']);
  return value === 'as-it-is' ? {} : ({ [name]: value === '1' } as { readonly [K in Name]?: boolean });
}

function tcpLink(place: string, options: Options): Result<Link, LinkProblem> {
  const found = /^\/\/(\[[0-9A-Fa-f:.]+\]|[^:/[\]\s]+):(\d{1,5})\/?$/u.exec(place);
  const host = found?.[1];
  const port = Number(found?.[2]);
  if (host === undefined || !(port >= 1 && port <= 65_535)) {
    return wrong('link', `"tcp:${place}" has no host and port`, 'Write it like tcp://192.168.1.20:4001.');
  }
  const read = reader(options);
  return read.finish({ kind: 'tcp', host, port, ...askingIn(read) });
}
